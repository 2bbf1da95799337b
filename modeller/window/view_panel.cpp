#include "modeller/window/view_panel.h"

#include <vtkCallbackCommand.h>
#include <vtkGenericOpenGLRenderWindow.h>
#include <vtkRenderer.h>

#include <algorithm>
#include <cmath>

#include "geometry/words/shown.h"

namespace halfhard {

ViewPanel::ViewPanel(QWidget* parent) : QVTKOpenGLNativeWidget(parent), scene_(light_theme()) {
  auto window = vtkSmartPointer<vtkGenericOpenGLRenderWindow>::New();
  window->SetMultiSamples(4);
  setRenderWindow(window);
  window->AddRenderer(scene_.renderer());
  // Labels follow the camera and the size of the picture, so they are laid out at the start of every frame.
  auto start = vtkSmartPointer<vtkCallbackCommand>::New();
  start->SetClientData(this);
  start->SetCallback([](vtkObject*, unsigned long, void* panel, void*) {
    auto* self = static_cast<ViewPanel*>(panel);
    self->stale_ = false;
    const double density = self->devicePixelRatioF();
    self->scene_.prepare(static_cast<int>(self->width() * density), static_cast<int>(self->height() * density));
  });
  scene_.renderer()->AddObserver(vtkCommand::StartEvent, start);
  setFocusPolicy(Qt::StrongFocus);
  setMouseTracking(true);
  setAccessibleName("The job in three dimensions");
  rest_.setSingleShot(true);
  rest_.setInterval(60);
  connect(&rest_, &QTimer::timeout, this, [this] { hover(); });
}

void ViewPanel::hover() {
  const auto picked = underMouse() ? picked_at(mouse_) : std::nullopt;
  const std::string name = picked && picked->kind == PartKind::run ? picked->name : "";
  if (name == hovered_) return;
  hovered_ = name;
  if (on_hover) on_hover(name);
}

bool ViewPanel::holds(const std::vector<Vec3>& places) const {
  return std::all_of(places.begin(), places.end(), [&](const Vec3& place) {
    const Projected at = project(scene_.frame(), width(), height(), place);
    return at.x >= 0 && at.y >= 0 && at.x <= width() && at.y <= height();
  });
}

void ViewPanel::redraw() {
  scene_.set_text_scale(devicePixelRatioF());
  stale_ = true;
  if (waiting_) return;
  waiting_ = true;
  // One frame, however much is changed before it; none where one was drawn meanwhile, as on the first showing.
  QTimer::singleShot(0, this, [this] {
    waiting_ = false;
    if (stale_) renderWindow()->Render();
    update();
  });
}

void ViewPanel::show(Drawn drawn) {
  const bool held = fitted_ && holds(drawn_.framing);
  drawn_ = std::move(drawn);
  compose();
  if (!fitted_ && !drawn_.framing.empty()) {
    fitted_ = true;
    look(NamedView::isometric);
    return;
  }
  if (held && !held_ && !holds(drawn_.framing)) return fit();
  redraw();
}

void ViewPanel::compose() {
  Drawn all = drawn_;
  if (at_key_) all.labels.push_back({LabelKind::measure, at_key_->words, at_key_->picked.at});
  if (measured_.size() == 2) {
    const Vec3 &from = measured_[0].picked.at, &to = measured_[1].picked.at;
    all.dimensions.push_back({from, to, false});
    all.labels.push_back({LabelKind::measure, shown_length((to - from).norm(), drawn_.unit), (from + to) / 2});
  } else if (measured_.size() == 1) {
    all.labels.push_back({LabelKind::measure, "from here", measured_[0].picked.at});
  }
  scene_.show(std::move(all));
}

void ViewPanel::look(NamedView view) {
  scene_.set_frame(fitted_view(view, drawn_.framing, width(), height()));
  keeps_fitted_ = true;
  redraw();
}

void ViewPanel::fit() {
  scene_.set_frame(fitted_frame(scene_.frame(), drawn_.framing, width(), height()));
  keeps_fitted_ = true;
  redraw();
}

void ViewPanel::fit_to(const std::vector<Vec3>& places) {
  set_frame(fitted_frame(scene_.frame(), places, width(), height()));
}

void ViewPanel::resizeEvent(QResizeEvent* event) {
  if (keeps_fitted_) fit();
  QVTKOpenGLNativeWidget::resizeEvent(event);
}

void ViewPanel::set_frame(const ViewFrame& frame) {
  fitted_ = true;
  keeps_fitted_ = false;
  scene_.set_frame(frame);
  redraw();
}

void ViewPanel::fly_to(const Vec3& at, double half_height_mm) {
  set_frame(flown_to(scene_.frame(), at, half_height_mm));
}

void ViewPanel::set_theme(const Theme& theme) {
  scene_.set_theme(theme);
  redraw();
}

void ViewPanel::set_section(const std::optional<Section>& section) {
  scene_.set_section(section);
  redraw();
}

void ViewPanel::forget_measured() {
  measured_.clear();
  at_key_.reset();
}

void ViewPanel::set_measuring(bool on) {
  measuring_ = on;
  measured_.clear();
  compose();
  redraw();
}

std::optional<Picked> ViewPanel::picked_at(const QPointF& place) const {
  const Bounds& bounds = drawn_.bounds;
  const double reach =
      2000 + (bounds.empty() ? 0 : (bounds.high - bounds.low).norm() + (bounds.low - scene_.frame().centre).norm());
  const Sight sight = sight_through(scene_.frame(), width(), height(), place.x(), height() - place.y(), reach);
  return pick(drawn_, sight, scene_.section());
}

void ViewPanel::measure(const NamedPlace& place) {
  if (measured_.size() == 2) measured_.clear();
  measured_.push_back(place);
  compose();
  redraw();
  if (!on_measured) return;
  if (measured_.size() == 1) {
    on_measured("Measuring from " + place.words + "; pick the other place");
    return;
  }
  const Vec3 way = measured_[1].picked.at - measured_[0].picked.at;
  std::string parts;
  for (int axis = 0; axis < 3; ++axis)
    parts +=
        (axis ? ", " : "") + site_word(axis, way[axis]) + " " + shown_length_bare(std::abs(way[axis]), drawn_.unit);
  on_measured(measured_[0].words + " to " + measured_[1].words + ": " + shown_length(way.norm(), drawn_.unit) +
              " straight; " + parts);
}

void ViewPanel::press(const QMouseEvent& event) {
  setFocus();
  pressed_at_ = last_ = event.localPos();
  moved_ = false;
  held_.reset();
  held_axis_ = -1;
  if (event.button() != Qt::LeftButton || event.modifiers() & Qt::ShiftModifier || measuring_ || !may_move) return;
  const auto picked = picked_at(event.localPos());
  if (picked && may_move(*picked)) held_ = picked;
}

void ViewPanel::drag(const QMouseEvent& event) {
  const QPointF by = event.localPos() - last_;
  if ((event.localPos() - pressed_at_).manhattanLength() > 4) moved_ = true;
  if (!moved_ || move_held(event)) return;
  last_ = event.localPos();
  if (event.buttons() & Qt::LeftButton && !(event.modifiers() & Qt::ShiftModifier)) {
    turn(-0.4 * by.x(), -0.4 * by.y());
    return;
  }
  ViewFrame frame = scene_.frame();
  const double mm = 2 * frame.half_height_mm / height();
  frame.centre -= mm * (by.x() * frame.rightwards() - by.y() * frame.upwards);
  set_frame(frame);
}

void ViewPanel::turn(double across_deg, double up_deg) {
  ViewFrame frame = scene_.frame();
  const Eigen::AngleAxisd about_up(Angle::degrees(across_deg).radians(), Vec3::UnitZ());
  frame.looking = about_up * frame.looking;
  frame.upwards = about_up * frame.upwards;
  const Eigen::AngleAxisd about_right(Angle::degrees(up_deg).radians(), frame.rightwards());
  const Vec3 upwards = about_right * frame.upwards;
  if (upwards.z() >= -1e-9) {  // never upside down
    frame.looking = (about_right * frame.looking).normalized();
    frame.upwards = (upwards - upwards.dot(frame.looking) * frame.looking).normalized();
  }
  set_frame(frame);
}

void ViewPanel::release(const QMouseEvent& event) {
  const bool was_held = held_.has_value() && held_axis_ >= 0;
  held_.reset();
  if (was_held && on_let_go) on_let_go();
  if (!moved_ && event.button() == Qt::RightButton && on_menu) on_menu(picked_at(event.localPos()), event.globalPos());
  if (moved_ || event.button() != Qt::LeftButton) return;
  if (const auto picked = picked_at(event.localPos())) take(*picked, picked->name);
}

void ViewPanel::take(const Picked& picked, const std::string& words) {
  if (measuring_)
    measure({picked, words});
  else if (on_pick)
    on_pick(picked);
}

void ViewPanel::zoom(double steps, const QPointF& at) {
  ViewFrame frame = scene_.frame();
  const double factor = std::pow(0.85, steps);
  const double mm = 2 * frame.half_height_mm / height() * (1 - factor);
  frame.centre += mm * ((at.x() - width() / 2.0) * frame.rightwards() - (at.y() - height() / 2.0) * frame.upwards);
  frame.half_height_mm = std::clamp(frame.half_height_mm * factor, 1.0, 1e7);
  set_frame(frame);
}

bool ViewPanel::turn_by_key(int key) {
  const QPointF middle(width() / 2.0, height() / 2.0);
  switch (key) {
    case Qt::Key_Left:
      return turn(10, 0), true;
    case Qt::Key_Right:
      return turn(-10, 0), true;
    case Qt::Key_Up:
      return turn(0, 10), true;
    case Qt::Key_Down:
      return turn(0, -10), true;
    case Qt::Key_Plus:
    case Qt::Key_Equal:
      return zoom(1, middle), true;
    case Qt::Key_Minus:
      return zoom(-1, middle), true;
    default:
      return false;
  }
}

// The library's own handling of mouse and keys is left out: it would turn the camera behind the frame's back.
bool ViewPanel::event(QEvent* event) {
  switch (event->type()) {
    case QEvent::MouseButtonDblClick:
      if (static_cast<QMouseEvent*>(event)->button() == Qt::LeftButton && on_edit) return on_edit(), true;
      [[fallthrough]];
    case QEvent::MouseButtonPress:
      press(*static_cast<QMouseEvent*>(event));
      return true;
    case QEvent::MouseMove:
      mouse_ = static_cast<QMouseEvent*>(event)->localPos();
      if (static_cast<QMouseEvent*>(event)->buttons() != Qt::NoButton)
        drag(*static_cast<QMouseEvent*>(event));
      else
        rest_.start();
      return true;
    case QEvent::Leave:
      rest_.start();
      return QVTKOpenGLNativeWidget::event(event);
    case QEvent::MouseButtonRelease:
      release(*static_cast<QMouseEvent*>(event));
      return true;
    case QEvent::Wheel: {
      auto* wheel = static_cast<QWheelEvent*>(event);
      zoom(wheel->angleDelta().y() / 120.0, wheel->position());
      return true;
    }
    case QEvent::KeyPress:
      if (step_by_key(static_cast<QKeyEvent*>(event)->key())) return true;
      if (turn_by_key(static_cast<QKeyEvent*>(event)->key())) return true;
      return QWidget::event(event);
    case QEvent::KeyRelease:
      return QWidget::event(event);
    case QEvent::ToolTip: {
      auto* help = static_cast<QHelpEvent*>(event);
      const auto picked = picked_at(help->pos());
      if (picked && words_for)
        QToolTip::showText(help->globalPos(), QString::fromStdString(words_for(*picked)), this);
      else
        QToolTip::hideText();
      return true;
    }
    default:
      return QVTKOpenGLNativeWidget::event(event);
  }
}

}  // namespace halfhard
