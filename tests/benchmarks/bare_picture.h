// Triangles drawn by the graphics library alone, as its own first examples do it: a mapper and an actor a surface, the
// library's own light. The floor that the window is measured against.
#pragma once

#include <array>
#include <fstream>
#include <string>
#include <vector>

#include <vtkActor.h>
#include <vtkCamera.h>
#include <vtkCellArray.h>
#include <vtkFloatArray.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkPolyDataMapper.h>
#include <vtkProperty.h>
#include <vtkRenderer.h>
#include <vtkSmartPointer.h>

namespace halfhard {

struct BareSurface {
  std::array<double, 4> colour{};  // red, green, blue, opacity
  std::vector<float> points, normals;
  std::vector<int> triangles;
};
using BareTriangles = std::vector<BareSurface>;

inline vtkSmartPointer<vtkRenderer> bare_picture(const BareTriangles& all) {
  auto renderer = vtkSmartPointer<vtkRenderer>::New();
  for (const BareSurface& surface : all) {
    auto points = vtkSmartPointer<vtkPoints>::New();
    auto normals = vtkSmartPointer<vtkFloatArray>::New();
    normals->SetNumberOfComponents(3);
    for (size_t i = 0; i + 2 < surface.points.size(); i += 3) {
      points->InsertNextPoint(&surface.points[i]);
      normals->InsertNextTypedTuple(&surface.normals[i]);
    }
    auto cells = vtkSmartPointer<vtkCellArray>::New();
    for (size_t i = 0; i + 2 < surface.triangles.size(); i += 3) {
      const vtkIdType corners[] = {surface.triangles[i], surface.triangles[i + 1], surface.triangles[i + 2]};
      cells->InsertNextCell(3, corners);
    }
    auto data = vtkSmartPointer<vtkPolyData>::New();
    data->SetPoints(points);
    data->SetPolys(cells);
    data->GetPointData()->SetNormals(normals);
    auto mapper = vtkSmartPointer<vtkPolyDataMapper>::New();
    mapper->SetInputData(data);
    auto actor = vtkSmartPointer<vtkActor>::New();
    actor->SetMapper(mapper);
    actor->GetProperty()->SetColor(surface.colour[0], surface.colour[1], surface.colour[2]);
    actor->GetProperty()->SetOpacity(surface.colour[3]);
    renderer->AddActor(actor);
  }
  renderer->GetActiveCamera()->ParallelProjectionOn();
  renderer->ResetCamera();
  return renderer;
}

inline void write_bare(const BareTriangles& all, const std::string& file) {
  std::ofstream stream(file, std::ios::binary);
  const auto put = [&](const auto& values) {
    const size_t count = values.size();
    stream.write(reinterpret_cast<const char*>(&count), sizeof count);
    stream.write(reinterpret_cast<const char*>(values.data()), static_cast<std::streamsize>(count * sizeof values[0]));
  };
  for (const BareSurface& surface : all) {
    put(surface.colour);
    put(surface.points);
    put(surface.normals);
    put(surface.triangles);
  }
}

inline BareTriangles read_bare(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  BareTriangles all;
  const auto get = [&](auto& values) {
    size_t count = 0;
    stream.read(reinterpret_cast<char*>(&count), sizeof count);
    if constexpr (requires { values.resize(count); }) values.resize(count);
    stream.read(reinterpret_cast<char*>(values.data()), static_cast<std::streamsize>(count * sizeof values[0]));
  };
  while (stream.peek() != std::ifstream::traits_type::eof()) {
    BareSurface& surface = all.emplace_back();
    get(surface.colour);
    get(surface.points);
    get(surface.normals);
    get(surface.triangles);
  }
  return all;
}

}  // namespace halfhard
