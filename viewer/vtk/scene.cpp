#include "viewer/vtk/scene.h"

#include <algorithm>

#include <vtkFloatArray.h>
#include <vtkLight.h>
#include <vtkPlane.h>
#include <vtkPointData.h>
#include <vtkPropCollection.h>

namespace halfhard {
namespace {

vtkSmartPointer<vtkPolyData> surface_of(const RingMesh& mesh) {
  auto points = vtkSmartPointer<vtkPoints>::New();
  points->SetDataTypeToDouble();
  points->SetNumberOfPoints(static_cast<vtkIdType>(mesh.vertices.size()));
  auto normals = vtkSmartPointer<vtkFloatArray>::New();
  normals->SetNumberOfComponents(3);
  normals->SetNumberOfTuples(static_cast<vtkIdType>(mesh.normals.size()));
  for (size_t i = 0; i < mesh.vertices.size(); ++i) {
    points->SetPoint(static_cast<vtkIdType>(i), mesh.vertices[i].data());
    const Eigen::Vector3f normal = mesh.normals[i].cast<float>();
    normals->SetTypedTuple(static_cast<vtkIdType>(i), normal.data());
  }
  auto triangles = vtkSmartPointer<vtkCellArray>::New();
  triangles->AllocateExact(static_cast<vtkIdType>(mesh.triangles.size()),
                           3 * static_cast<vtkIdType>(mesh.triangles.size()));
  for (const auto& t : mesh.triangles) {
    const vtkIdType corners[] = {t[0], t[1], t[2]};
    triangles->InsertNextCell(3, corners);
  }
  auto data = vtkSmartPointer<vtkPolyData>::New();
  data->SetPoints(points);
  data->SetPolys(triangles);
  data->GetPointData()->SetNormals(normals);
  return data;
}

// Lines carry normals only so that the library draws them by the same program as surfaces: each program more costs time
// before the first picture.
vtkSmartPointer<vtkPolyData> lines_of(const std::vector<std::array<Vec3, 2>>& lines) {
  auto points = vtkSmartPointer<vtkPoints>::New();
  points->SetDataTypeToDouble();
  auto cells = vtkSmartPointer<vtkCellArray>::New();
  auto normals = vtkSmartPointer<vtkFloatArray>::New();
  normals->SetNumberOfComponents(3);
  for (const auto& [from, to] : lines) {
    const vtkIdType ends[] = {points->InsertNextPoint(from.data()), points->InsertNextPoint(to.data())};
    cells->InsertNextCell(2, ends);
    for (int end = 0; end < 2; ++end) normals->InsertNextTuple3(0, 0, 1);
  }
  auto data = vtkSmartPointer<vtkPolyData>::New();
  data->SetPoints(points);
  data->SetLines(cells);
  data->GetPointData()->SetNormals(normals);
  return data;
}

vtkSmartPointer<vtkActor> actor_of(vtkPolyData* data) {
  auto mapper = vtkSmartPointer<vtkPolyDataMapper>::New();
  mapper->SetInputData(data);
  mapper->ScalarVisibilityOff();
  auto actor = vtkSmartPointer<vtkActor>::New();
  actor->SetMapper(mapper);
  actor->PickableOff();
  return actor;
}

void add_lights(vtkRenderer* renderer) {
  renderer->AutomaticLightCreationOff();
  const auto add = [&](double x, double y, double z, double strength) {
    auto light = vtkSmartPointer<vtkLight>::New();
    light->SetLightTypeToCameraLight();
    light->SetPosition(x, y, z);
    light->SetFocalPoint(0, 0, 0);
    light->SetIntensity(strength);
    renderer->AddLight(light);
  };
  add(-0.7, 0.9, 1.0, 0.85);    // over the left shoulder, as drawings are lit
  add(-0.45, -0.75, 0.5, 0.5);  // from below: the sheen on upright tube, which the first light passes by
}

}  // namespace

ShownScene::ShownScene(const Theme& theme)
    : theme_(theme),
      renderer_(vtkSmartPointer<vtkRenderer>::New()),
      cut_(vtkSmartPointer<vtkPlane>::New()),
      overlay_(renderer_) {
  add_lights(renderer_);
  renderer_->SetUseDepthPeeling(false);
  renderer_->GetActiveCamera()->ParallelProjectionOn();
  set_theme(theme);
}

ShownScene::~ShownScene() = default;

vtkRenderer* ShownScene::renderer() { return renderer_; }

std::vector<vtkSmartPointer<vtkActor>> ShownScene::build(const Part& part) const {
  std::vector<vtkSmartPointer<vtkActor>> actors;
  for (const Layer& layer : part.layers) {
    actors.push_back(actor_of(surface_of(layer.mesh)));
    actors.push_back(actor_of(lines_of(layer.lines)));
  }
  return actors;
}

// Colours and cuts; two actors a layer, its surface and its lines.
void ShownScene::dress(const Part& part, const std::vector<vtkSmartPointer<vtkActor>>& actors) const {
  for (size_t i = 0; i < actors.size(); ++i) {
    const Layer& layer = part.layers[i / 2];
    const bool is_lines = i % 2 == 1;
    const Finish finish = theme_.finish(layer.paint);
    vtkProperty* property = actors[i]->GetProperty();
    property->SetColor(finish.colour.red, finish.colour.green, finish.colour.blue);
    property->SetOpacity(layer.halo ? 1 : finish.opacity);
    actors[i]->ForceOpaqueOn();  // see order_glass
    property->SetBackfaceCulling(layer.one_sided || (finish.opacity < 1 && layer.closed && !section_));
    property->SetInterpolationToGouraud();
    const bool flat = is_lines || layer.halo;
    property->SetAmbient(flat ? 1 : 0.34);
    property->SetDiffuse(flat ? 0 : 0.85);
    property->SetSpecular(flat ? 0 : finish.shine);
    property->SetFrontfaceCulling(layer.halo);
    property->SetSpecularColor(1, 0.96, 0.90);  // the light's own, as on metal that is not polished
    property->SetSpecularPower(34);
    property->SetLineWidth(static_cast<float>(finish.width_px * text_scale_));
    actors[i]->SetVisibility(is_lines ? !layer.lines.empty() : !layer.mesh.triangles.empty());
    actors[i]->SetBackfaceProperty(nullptr);
    if (section_ && layer.paint == Paint::copper && !is_lines) {
      // What a section cuts open shows its inside flat and dark; a second finish costs time, so only then.
      auto inside = vtkSmartPointer<vtkProperty>::New();
      inside->DeepCopy(property);
      inside->SetColor(0.36 * finish.colour.red, 0.36 * finish.colour.green, 0.36 * finish.colour.blue);
      inside->SetSpecular(0);
      actors[i]->SetBackfaceProperty(inside);
    }
    vtkMapper* mapper = actors[i]->GetMapper();
    mapper->RemoveAllClippingPlanes();
    if (section_ && part.kind != PartKind::tool) mapper->AddClippingPlane(cut_);
  }
}

void ShownScene::show(Drawn drawn) {
  for (auto& [part, built] : built_) built.wanted = false;
  for (const auto& part : drawn.parts) {
    Built& built = built_[part.get()];
    built.wanted = true;
    if (built.part == part) continue;
    built.part = part;
    built.actors = build(*part);
    dress(*part, built.actors);
    for (const auto& actor : built.actors) renderer_->AddActor(actor);
  }
  for (auto at = built_.begin(); at != built_.end();) {
    if (at->second.wanted) {
      ++at;
      continue;
    }
    for (const auto& actor : at->second.actors) renderer_->RemoveActor(actor);
    at = built_.erase(at);
  }
  drawn_ = std::move(drawn);
  glass_.clear();
}

void ShownScene::set_theme(const Theme& theme) {
  theme_ = theme;
  renderer_->SetBackground(theme.background.red, theme.background.green, theme.background.blue);
  for (const auto& [part, built] : built_) dress(*part, built.actors);
}

void ShownScene::set_section(const std::optional<Section>& section) {
  const bool was = section_.has_value();
  section_ = section;
  if (section_) {
    const Vec3 origin = section_->at_mm * section_->towards;
    cut_->SetOrigin(origin.x(), origin.y(), origin.z());
    cut_->SetNormal(section_->towards.x(), section_->towards.y(), section_->towards.z());
  }
  if (was || section_)
    for (const auto& [part, built] : built_) dress(*part, built.actors);
}

void ShownScene::set_text_scale(double scale) {
  if (scale == text_scale_) return;
  text_scale_ = scale;
  for (const auto& [part, built] : built_) dress(*part, built.actors);
}

void ShownScene::set_frame(const ViewFrame& frame) { frame_ = frame; }

void ShownScene::aim() {
  // Parallel projection: the eye's distance does not change the picture, it only has to stand outside everything.
  const Bounds& bounds = drawn_.bounds;
  const double size = bounds.empty() ? 1000 : (bounds.high - bounds.low).norm() + 1000;
  const double away = size + (bounds.empty() ? 0 : ((bounds.low + bounds.high) / 2 - frame_.centre).norm());
  vtkCamera* camera = renderer_->GetActiveCamera();
  const Vec3 eye = frame_.centre - 2 * away * frame_.looking;
  camera->SetFocalPoint(frame_.centre.x(), frame_.centre.y(), frame_.centre.z());
  camera->SetPosition(eye.x(), eye.y(), eye.z());
  camera->SetViewUp(frame_.upwards.x(), frame_.upwards.y(), frame_.upwards.z());
  camera->SetParallelScale(frame_.half_height_mm);
  camera->SetClippingRange(0.1 * away, 4 * away);
}

// What is seen through is drawn after all else, from far to near: walls, then what is chosen, then bodies. That takes half
// the time of the library's own way, which needs no order, and shows the same as long as bodies do not cut each other.
void ShownScene::order_glass() {
  struct Pane {
    int rank;
    double depth;
    vtkActor* actor;
  };
  std::vector<Pane> panes;
  for (const auto& part : drawn_.parts) {
    const Built& built = built_.at(part.get());
    for (size_t i = 0; i < part->layers.size(); ++i) {
      const Layer& layer = part->layers[i];
      if (theme_.finish(layer.paint).opacity >= 1 || layer.halo || layer.mesh.triangles.empty()) continue;
      vtkActor* actor = built.actors[2 * i];
      const double* middle = actor->GetCenter();
      const int rank = layer.paint == Paint::wall ? 0 : part->kind == PartKind::chosen ? 1 : 2;
      panes.push_back({rank, Vec3(middle[0], middle[1], middle[2]).dot(frame_.looking), actor});
    }
  }
  std::stable_sort(panes.begin(), panes.end(),
                   [](const Pane& a, const Pane& b) { return a.rank != b.rank ? a.rank < b.rank : a.depth > b.depth; });
  std::vector<vtkActor*> ordered;
  for (const Pane& pane : panes) ordered.push_back(pane.actor);
  if (ordered == glass_) return;
  for (vtkActor* actor : ordered) {
    const vtkSmartPointer<vtkActor> keep = actor;
    renderer_->GetViewProps()->RemoveItem(actor);  // the renderer's own way would give up what it has on the card
    renderer_->GetViewProps()->AddItem(actor);
  }
  glass_ = std::move(ordered);
}

void ShownScene::prepare(int width, int height) {
  aim();
  order_glass();
  overlay_.lay_out(drawn_, frame_, section_, theme_, width, height, text_scale_);
}

}  // namespace halfhard
