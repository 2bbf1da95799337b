// What is drawn over the picture at a constant size: labels with their frames, leaders and signs, dimension lines, the
// site's axes and the caption. Two actors in all: one for lines and grounds, one for every text from a single image.
#pragma once

#include <optional>
#include <vector>

#include <vtkSmartPointer.h>

#include "viewer/drawn.h"
#include "viewer/section.h"
#include "viewer/theme.h"
#include "viewer/view_frame.h"
#include "viewer/vtk/text_atlas.h"

class vtkActor2D;
class vtkPolyData;
class vtkRenderer;

namespace halfhard {

class Overlay {
 public:
  explicit Overlay(vtkRenderer* renderer);

  void lay_out(const Drawn& drawn, const ViewFrame& frame, const std::optional<Section>& section, const Theme& theme,
               int width, int height, double scale);

 private:
  vtkSmartPointer<vtkPolyData> shapes_;
  vtkSmartPointer<vtkActor2D> shapes_actor_;
  TextAtlas texts_;
};

}  // namespace halfhard
