// Every text of the picture in one image, so that a frame draws them all at once. The image is made anew only when a
// text is needed that it does not hold.
#pragma once

#include <map>
#include <string>
#include <vector>

#include <vtkSmartPointer.h>

#include "viewer/theme.h"

class vtkFloatArray;
class vtkImageData;
class vtkPolyData;
class vtkTexture;
class vtkTexturedActor2D;

namespace halfhard {

struct AtlasText {
  std::string text;
  Colour colour;
  int size_px = 13;
  bool bold = false;
  auto key() const { return std::tuple(text, size_px, bold, colour.red, colour.green, colour.blue); }
};

struct PlacedText {
  AtlasText text;
  double x = 0, y = 0;  // lower left corner
};

class TextAtlas {
 public:
  TextAtlas();

  vtkTexturedActor2D* actor() const;  // add it after what it stands on

  struct Size {
    int width = 0, height = 0;
  };
  Size size_of(const AtlasText& text);
  void show(const std::vector<PlacedText>& texts);

 private:
  struct Entry {
    vtkSmartPointer<vtkImageData> image;
    Size size;
    int left = 0, low = 0;  // in the atlas
    bool placed = false;
  };
  using Key = decltype(AtlasText().key());
  Entry& entry(const AtlasText& text);
  void compose();

  std::map<Key, Entry> entries_;
  vtkSmartPointer<vtkImageData> atlas_;
  vtkSmartPointer<vtkTexture> texture_;
  vtkSmartPointer<vtkPolyData> quads_;
  vtkSmartPointer<vtkTexturedActor2D> actor_;
};

}  // namespace halfhard
