#include "viewer/vtk/picture.h"

#include <algorithm>

#include <vtkImageData.h>
#include <vtkPNGWriter.h>
#include <vtkPointData.h>
#include <vtkUnsignedCharArray.h>
#include <vtkWindowToImageFilter.h>

#include "viewer/vtk/scene.h"

namespace halfhard {

std::string picture_png(const Drawn& drawn, const ViewFrame& frame, const PictureOptions& options) {
  ShownScene scene(options.dark ? dark_theme() : light_theme());
  // Labels grow with the picture, so that a large one can be printed and read.
  scene.set_text_scale(std::clamp(std::min(options.width / 1280.0, options.height / 800.0), 0.8, 4.0));
  scene.set_section(options.section);
  scene.show(drawn);
  scene.set_frame(frame);

  auto window = vtkSmartPointer<vtkRenderWindow>::New();
  window->SetOffScreenRendering(1);
  window->SetMultiSamples(8);
  window->SetSize(options.width, options.height);
  window->AddRenderer(scene.renderer());
  scene.prepare(options.width, options.height);
  window->Render();

  auto grab = vtkSmartPointer<vtkWindowToImageFilter>::New();
  grab->SetInput(window);
  grab->SetInputBufferTypeToRGB();
  grab->ReadFrontBufferOff();
  grab->ShouldRerenderOff();
  auto writer = vtkSmartPointer<vtkPNGWriter>::New();
  writer->SetInputConnection(grab->GetOutputPort());
  writer->WriteToMemoryOn();
  writer->Write();
  vtkUnsignedCharArray* bytes = writer->GetResult();
  return {reinterpret_cast<const char*>(bytes->GetPointer(0)), static_cast<size_t>(bytes->GetNumberOfValues())};
}

std::string picture_png(const Plan& plan, const PictureOptions& options) {
  PlanDrawer drawer;
  const Drawn drawn = drawer.draw(plan, options.draw);
  return picture_png(drawn, fitted_view(options.view, drawn.framing, options.width, options.height), options);
}

}  // namespace halfhard
