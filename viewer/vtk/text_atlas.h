// Every text of the picture in one image, so that a frame draws them all at once; one spot of it is plain white, so that
// flat shapes can be drawn from the same image. It is made anew only when a text is needed that it does not hold.
#pragma once

#include <map>
#include <string>
#include <vector>

#include <vtkSmartPointer.h>

#include "viewer/theme.h"

class vtkImageData;
class vtkTexture;

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

  vtkTexture* texture() const;

  struct Size {
    int width = 0, height = 0;
  };
  Size size_of(const AtlasText& text);
  // Brings the image up to hold these; call before asking where they are.
  void hold(const std::vector<PlacedText>& texts);
  // Where a text or the white spot is in the image, from 0 to 1.
  struct Place {
    double left = 0, low = 0, right = 0, high = 0;
  };
  Place place_of(const AtlasText& text);
  Place white() const;

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
};

}  // namespace halfhard
