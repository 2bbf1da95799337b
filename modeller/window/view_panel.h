// The scene in the window: turned, shifted and zoomed by the mouse and by keys, picked, measured, cut, and dragged at.
#pragma once

#include <QVTKOpenGLNativeWidget.h>

#include <functional>
#include <optional>

#include "viewer/pick.h"
#include "viewer/places.h"
#include "viewer/vtk/scene.h"

namespace halfhard {

class ViewPanel : public QVTKOpenGLNativeWidget {
 public:
  explicit ViewPanel(QWidget* parent);

  std::function<void(const Picked&)> on_pick;            // clicked on
  std::function<std::string(const Picked&)> words_for;   // help at the cursor
  std::function<void(const std::string& run)> on_hover;  // the pipe under the mouse, when it is another; empty for none
  std::function<void(const std::optional<Picked>&, const QPoint& global)> on_menu;  // clicked on with the right button
  std::function<void()> on_edit;                                                    // clicked on twice
  std::function<void(const std::string&)> on_measured;                              // the sentence for the status line
  // Pressed on something: whether dragging moves it. Then where it is dragged to from there, along one site axis; gives
  // the words for the cursor. Then it is let go.
  std::function<bool(const Picked&)> may_move;
  std::function<std::string(int axis, double by_mm)> on_move;
  std::function<void()> on_let_go;
  std::function<std::vector<NamedThing>()> things;  // to be stepped through by keys

  // Keeps the eye where it is, except for the first picture, and where it held all pipes and would not any more.
  void show(Drawn drawn);
  void look(NamedView view);
  void fit();
  void fit_to(const std::vector<Vec3>& places);
  void fly_to(const Vec3& at, double half_height_mm);
  void set_theme(const Theme& theme);
  void set_section(const std::optional<Section>& section);
  // Two clicks measure from surface to surface; off forgets what was measured.
  void set_measuring(bool on);
  void forget_measured();
  void set_frame(const ViewFrame& frame);
  const ViewFrame& frame() const { return scene_.frame(); }
  const Drawn& drawn() const { return drawn_; }
  std::optional<Picked> picked_at(const QPointF& place) const;
  void redraw();

 protected:
  bool event(QEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void press(const QMouseEvent& event);
  void drag(const QMouseEvent& event);
  void release(const QMouseEvent& event);
  void zoom(double steps, const QPointF& at);
  bool turn_by_key(int key);
  bool step_by_key(int key);
  void go_to(int thing, int place);
  void take(const Picked& picked, const std::string& words);
  bool move_held(const QMouseEvent& event);
  void turn(double across_deg, double up_deg);
  void measure(const NamedPlace& place);
  bool holds(const std::vector<Vec3>& places) const;
  void hover();
  void compose();  // the drawn picture with what was measured on top

  ShownScene scene_;
  Drawn drawn_;
  bool fitted_ = false, measuring_ = false, moved_ = false;
  bool keeps_fitted_ = false;             // to the panel's size, until somebody turns, shifts or zooms
  bool waiting_ = false, stale_ = false;  // for the frame that shows what was changed; no frame shows it yet
  QPointF pressed_at_, last_;
  std::vector<NamedPlace> measured_;
  std::optional<Picked> held_;  // what is dragged
  int held_axis_ = -1;
  std::optional<NamedPlace> at_key_;  // where the keys have stepped to
  int thing_ = -1, place_ = 0;
  QTimer rest_;  // until the mouse has come to rest
  QPointF mouse_;
  std::string hovered_;
};

}  // namespace halfhard
