// A picture on a screen: takes a Drawn and keeps the graphics library's objects for the parts that did not change.
// Not a value: it owns a renderer. Use from one thread, and only where a display can be reached (see display.h).
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>

#include <vtkSmartPointer.h>

#include "viewer/drawn.h"
#include "viewer/section.h"
#include "viewer/theme.h"
#include "viewer/view_frame.h"
#include "viewer/vtk/overlay.h"

class vtkActor;
class vtkPlane;
class vtkRenderer;

namespace halfhard {

class ShownScene {
 public:
  explicit ShownScene(const Theme& theme);
  ~ShownScene();
  ShownScene(const ShownScene&) = delete;
  ShownScene& operator=(const ShownScene&) = delete;

  void show(Drawn drawn);
  void set_theme(const Theme& theme);
  void set_section(const std::optional<Section>& section);
  void set_frame(const ViewFrame& frame);
  // 1 for a window of ordinary density; labels and line widths follow it.
  void set_text_scale(double scale);

  const Drawn& drawn() const { return drawn_; }
  const std::optional<Section>& section() const { return section_; }
  const ViewFrame& frame() const { return frame_; }
  vtkRenderer* renderer();
  // Brings camera, clipping range and labels up to the frame and size of the picture; call before each render.
  void prepare(int width, int height);

 private:
  struct Built {
    std::shared_ptr<const Part> part;
    std::vector<vtkSmartPointer<vtkActor>> actors;
    bool wanted = false;
  };
  std::vector<vtkSmartPointer<vtkActor>> build(const Part& part) const;
  void dress(const Part& part, const std::vector<vtkSmartPointer<vtkActor>>& actors) const;
  void aim();
  void order_glass();

  Theme theme_;
  Drawn drawn_;
  std::optional<Section> section_;
  ViewFrame frame_;
  double text_scale_ = 1;
  vtkSmartPointer<vtkRenderer> renderer_;
  vtkSmartPointer<vtkPlane> cut_;
  std::map<const Part*, Built> built_;
  std::vector<vtkActor*> glass_;  // what is seen through, as last ordered
  Overlay overlay_;
};

}  // namespace halfhard
