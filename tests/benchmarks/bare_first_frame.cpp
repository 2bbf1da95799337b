// A program of the bare graphics library: a window of its own, its first frame of given triangles, and the end.
#include <unistd.h>

#include <vtkRenderWindow.h>

#include "tests/benchmarks/bare_picture.h"

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  const auto renderer = halfhard::bare_picture(halfhard::read_bare(argv[1]));
  auto window = vtkSmartPointer<vtkRenderWindow>::New();
  window->SetMultiSamples(4);
  window->SetSize(1280, 720);
  window->AddRenderer(renderer);
  window->Render();
  window->WaitForCompletion();
  _exit(0);
}
