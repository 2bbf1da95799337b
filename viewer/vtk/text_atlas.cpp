#include "viewer/vtk/text_atlas.h"

#include <algorithm>
#include <cstring>
#include <filesystem>

#include <vtkImageData.h>
#include <vtkTextProperty.h>
#include <vtkTextRenderer.h>
#include <vtkTexture.h>

namespace halfhard {
namespace {

constexpr int kAtlasWidth = 2048;
constexpr int kWhite = 4;              // side of the white spot, in the lower left corner
constexpr size_t kMostEntries = 2000;  // then texts that are no longer shown are dropped

// A font that knows more scripts than the library's own, where the machine has one: names come in any language.
const std::string& font_file(bool bold) {
  const auto find = [](const char* name) -> std::string {
    for (const char* folder :
         {"/usr/share/fonts/truetype/dejavu/", "/usr/share/fonts/dejavu-sans-fonts/", "/usr/share/fonts/TTF/"})
      if (std::filesystem::exists(std::string(folder) + name)) return std::string(folder) + name;
    return {};
  };
  static const std::string plain_file = find("DejaVuSans.ttf"), bold_file = find("DejaVuSans-Bold.ttf");
  return bold ? bold_file : plain_file;
}

}  // namespace

TextAtlas::TextAtlas() : atlas_(vtkSmartPointer<vtkImageData>::New()), texture_(vtkSmartPointer<vtkTexture>::New()) {
  texture_->InterpolateOff();
  texture_->SetInputData(atlas_);
}

vtkTexture* TextAtlas::texture() const { return texture_; }

TextAtlas::Entry& TextAtlas::entry(const AtlasText& text) {
  Entry& entry = entries_[text.key()];
  if (entry.image) return entry;
  auto property = vtkSmartPointer<vtkTextProperty>::New();
  const std::string& file = font_file(text.bold);
  if (!file.empty()) {
    property->SetFontFamily(VTK_FONT_FILE);
    property->SetFontFile(file.c_str());
  } else {
    property->SetFontFamilyToArial();
    property->SetBold(text.bold);
  }
  property->SetFontSize(text.size_px);
  property->SetColor(text.colour.red, text.colour.green, text.colour.blue);
  entry.image = vtkSmartPointer<vtkImageData>::New();
  int size[2] = {0, 0};
  if (!text.text.empty() && vtkTextRenderer::GetInstance()->RenderString(property, text.text, entry.image, size, 72,
                                                                         vtkTextRenderer::FreeType)) {
    const int* extent = entry.image->GetExtent();
    entry.size = {std::min(extent[1] - extent[0] + 1, std::min(size[0], kAtlasWidth)),
                  std::min(extent[3] - extent[2] + 1, size[1])};
  }
  return entry;
}

TextAtlas::Size TextAtlas::size_of(const AtlasText& text) { return entry(text).size; }

// Shelves from the bottom up, in the order of the texts' keys.
void TextAtlas::compose() {
  int left = kWhite + 1, low = 1, shelf = kWhite;
  for (auto& [key, entry] : entries_) {
    if (left + entry.size.width + 1 > kAtlasWidth) {
      left = 1;
      low += shelf + 1;
      shelf = 0;
    }
    entry.left = left;
    entry.low = low;
    entry.placed = true;
    left += entry.size.width + 1;
    shelf = std::max(shelf, entry.size.height);
  }
  int height = 64;
  while (height < low + shelf + 1) height *= 2;
  atlas_->SetDimensions(kAtlasWidth, height, 1);
  atlas_->AllocateScalars(VTK_UNSIGNED_CHAR, 4);
  auto* pixels = static_cast<unsigned char*>(atlas_->GetScalarPointer());
  std::memset(pixels, 0, static_cast<size_t>(kAtlasWidth) * height * 4);
  for (int row = 0; row < kWhite; ++row)
    std::memset(pixels + 4 * static_cast<size_t>(row) * kAtlasWidth, 255, 4 * kWhite);
  for (const auto& [key, entry] : entries_) {
    if (entry.size.width <= 0 || entry.size.height <= 0) continue;
    const int* extent = entry.image->GetExtent();
    for (int row = 0; row < entry.size.height; ++row)
      std::memcpy(pixels + 4 * (static_cast<size_t>(entry.low + row) * kAtlasWidth + entry.left),
                  entry.image->GetScalarPointer(extent[0], extent[2] + row, 0),
                  4 * static_cast<size_t>(entry.size.width));
  }
  atlas_->Modified();
}

void TextAtlas::hold(const std::vector<PlacedText>& texts) {
  if (entries_.size() > kMostEntries) entries_.clear();
  bool complete = atlas_->GetNumberOfPoints() > 0;
  for (const PlacedText& placed : texts) complete &= entry(placed.text).placed;
  if (!complete) compose();
}

TextAtlas::Place TextAtlas::place_of(const AtlasText& text) {
  const Entry& found = entry(text);
  const int* size = atlas_->GetDimensions();
  const double across = size[0], up = size[1];
  return {found.left / across, found.low / up, (found.left + found.size.width) / across,
          (found.low + found.size.height) / up};
}

TextAtlas::Place TextAtlas::white() const {
  const int* size = atlas_->GetDimensions();
  const double across = kWhite / 2.0 / size[0], up = kWhite / 2.0 / size[1];
  return {across, up, across, up};
}

}  // namespace halfhard
