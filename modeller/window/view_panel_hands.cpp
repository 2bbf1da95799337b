// The view by keys from place to place, and what is dragged in it.
#include "modeller/window/view_panel.h"
#include "viewer/drag.h"

namespace halfhard {

// True where the movement is that of a held part. The axis is settled once the hand has gone far enough to tell, and
// kept until it lets go.
bool ViewPanel::move_held(const QMouseEvent& event) {
  if (!held_ || !on_move) return false;
  constexpr double kTells_px = 8;
  const QPointF gone = event.localPos() - pressed_at_;
  const double across = gone.x(), up = -gone.y();
  if (held_axis_ < 0) {
    if (std::hypot(across, up) < kTells_px) return true;
    held_axis_ = axis_followed(scene_.frame(), across, up).value_or(-1);
    if (held_axis_ < 0) return true;
  }
  const std::string words = on_move(held_axis_, dragged_mm(scene_.frame(), height(), held_axis_, across, up));
  QToolTip::showText(event.globalPos() + QPoint(12, 12), QString::fromStdString(words), this);
  return true;
}

void ViewPanel::go_to(int thing, int place) {
  const std::vector<NamedThing> all = things ? things() : std::vector<NamedThing>();
  at_key_.reset();
  if (!all.empty()) {
    thing_ = ((thing % static_cast<int>(all.size())) + static_cast<int>(all.size())) % static_cast<int>(all.size());
    place_ = place % static_cast<int>(all[thing_].size());
    at_key_ = all[thing_][place_];
    if (on_measured) on_measured(at_key_->words + ". Enter takes it; Space: its next place; Tab: the next thing");
  }
  compose();
  redraw();
}

// Tab and Shift+Tab step through things, Space through the places of one, Enter takes the place, Escape leaves.
bool ViewPanel::step_by_key(int key) {
  switch (key) {
    case Qt::Key_Tab:
      return go_to(thing_ + 1, 0), true;
    case Qt::Key_Backtab:
      return go_to(thing_ < 0 ? -1 : thing_ - 1, 0), true;
    case Qt::Key_Space:
      return go_to(std::max(0, thing_), at_key_ ? place_ + 1 : 0), true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (at_key_) take(at_key_->picked, at_key_->words);
      return true;
    case Qt::Key_Escape:
      if (!at_key_) return focusNextChild(), true;
      at_key_.reset();
      compose();
      redraw();
      return true;
    default:
      return false;
  }
}

}  // namespace halfhard
