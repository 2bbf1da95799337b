// What is drawn over the picture at a constant size: labels with their frames, leaders and signs, dimension lines, the
// site's axes and the caption. A single actor: lines, grounds and every text from one image.
#pragma once

#include <optional>
#include <vector>

#include <vtkSmartPointer.h>

#include "viewer/drawn.h"
#include "viewer/section.h"
#include "viewer/theme.h"
#include "viewer/view_frame.h"
#include "viewer/vtk/text_atlas.h"

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
  TextAtlas texts_;
};

}  // namespace halfhard
