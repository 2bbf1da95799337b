#include "exporters/pdf/pdf.h"

#include <cairo-ft.h>
#include <cairo-pdf.h>

#include <map>
#include <numbers>

#include "exporters/sheet/fonts.h"
#include "exporters/sheet/line_pattern.h"
#include "exporters/sheet/outline_points.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/base/trouble.h"

namespace halfhard {
namespace {

constexpr double kPointsPerMm = 72 / 25.4;
constexpr double kRadians = std::numbers::pi / 180;

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

// Draws primitives with y up in mm on a cairo context that is set so.
class Painter {
 public:
  explicit Painter(cairo_t* cairo) : cairo_(cairo) {}
  ~Painter() {
    for (auto& [index, face] : faces_) cairo_font_face_destroy(face);
  }
  Painter(const Painter&) = delete;
  Painter& operator=(const Painter&) = delete;

  void operator()(const Polyline& line) {
    path(line.points, line.closed);
    stroke(line.pen);
  }
  void operator()(const ArcCurve& arc) {
    cairo_new_path(cairo_);
    cairo_arc(cairo_, arc.centre.x(), arc.centre.y(), arc.radius, arc.from_deg * kRadians,
              (arc.from_deg + arc.sweep_deg) * kRadians);
    stroke(arc.pen);
  }
  void operator()(const EllipseArc& ellipse) {
    cairo_matrix_t kept;
    cairo_get_matrix(cairo_, &kept);
    const Vec2& m = ellipse.major;
    const cairo_matrix_t to_sheet = {
        m.x(), m.y(), -ellipse.ratio * m.y(), ellipse.ratio * m.x(), ellipse.centre.x(), ellipse.centre.y()};
    cairo_transform(cairo_, &to_sheet);
    cairo_new_path(cairo_);
    cairo_arc(cairo_, 0, 0, 1, ellipse.from_deg * kRadians, (ellipse.from_deg + ellipse.sweep_deg) * kRadians);
    cairo_set_matrix(cairo_, &kept);  // stroked in sheet units
    stroke(ellipse.pen);
  }
  void operator()(const Area& area) {
    if (area.hatching) {
      for (const Polyline& line : hatch_lines(area)) (*this)(line);
      return;
    }
    cairo_new_path(cairo_);
    for (const auto& loop : area.loops) {
      for (std::size_t i = 0; i < loop.size(); ++i)
        i == 0 ? cairo_move_to(cairo_, loop[i].x(), loop[i].y()) : cairo_line_to(cairo_, loop[i].x(), loop[i].y());
      cairo_close_path(cairo_);
    }
    colour(area.pen.colour);
    cairo_set_fill_rule(cairo_, CAIRO_FILL_RULE_EVEN_ODD);
    cairo_fill(cairo_);
  }
  void operator()(const Text& text) {
    if (text.clears_ground) clear(box_of(text));
    const LaidLine line = lay_line(text.content, text.bold);
    const double width = line.width * text.height_mm;
    cairo_save(cairo_);
    cairo_translate(cairo_, text.at.x(), text.at.y());
    cairo_rotate(cairo_, text.rotation_deg * kRadians);
    const Vec2 start = start_of(text, width);
    cairo_translate(cairo_, start.x(), start.y());
    cairo_scale(cairo_, 1, -1);  // letters stand upright again
    colour(text.colour);
    show(line, text.height_mm);
    cairo_restore(cairo_);
  }

 private:
  void path(const std::vector<Vec2>& points, bool closed) {
    cairo_new_path(cairo_);
    for (const Vec2& p : points) cairo_line_to(cairo_, p.x(), p.y());
    if (closed) cairo_close_path(cairo_);
  }
  void colour(const std::optional<Colour>& colour) {
    const Colour c = colour.value_or(Colour{});
    cairo_set_source_rgb(cairo_, c.red, c.green, c.blue);
  }
  void stroke(const Pen& pen) {
    const std::vector<double> pattern = line_pattern_mm(pen.style);
    cairo_set_dash(cairo_, pattern.data(), static_cast<int>(pattern.size()), 0);
    cairo_set_line_width(cairo_, pen.width_mm);
    colour(pen.colour);
    cairo_stroke(cairo_);
  }
  void clear(const TextBox& box) {
    path(std::vector<Vec2>(box.corners, box.corners + 4), true);
    cairo_set_source_rgb(cairo_, 1, 1, 1);
    cairo_fill(cairo_);
  }
  cairo_font_face_t* face(int font) {
    auto found = faces_.find(font);
    if (found == faces_.end())
      found =
          faces_.emplace(font, cairo_ft_font_face_create_for_ft_face(static_cast<FT_Face>(font_face(font)), 0)).first;
    return found->second;
  }
  // Glyphs of one font at a time, each with the letters that it stands for, so that the words can be searched.
  void show(const LaidLine& line, double height) {
    std::size_t byte = 0;
    for (std::size_t i = 0; i < line.glyphs.size();) {
      const int font = line.glyphs[i].font;
      std::vector<cairo_glyph_t> glyphs;
      std::vector<cairo_text_cluster_t> clusters;
      std::size_t bytes = 0;
      for (; i < line.glyphs.size() && line.glyphs[i].font == font; ++i) {
        glyphs.push_back({line.glyphs[i].glyph, line.glyphs[i].x * height, 0});
        clusters.push_back({line.glyphs[i].bytes, 1});
        bytes += line.glyphs[i].bytes;
      }
      cairo_set_font_face(cairo_, face(font));
      cairo_set_font_size(cairo_, height * em_in_capitals(font));
      cairo_show_text_glyphs(cairo_, line.content.data() + byte, static_cast<int>(bytes), glyphs.data(),
                             static_cast<int>(glyphs.size()), clusters.data(), static_cast<int>(clusters.size()),
                             static_cast<cairo_text_cluster_flags_t>(0));
      byte += bytes;
    }
  }

  cairo_t* cairo_;
  std::map<int, cairo_font_face_t*> faces_;
};

void set_page(cairo_surface_t* surface, const SheetSize& size) {
  cairo_pdf_surface_set_size(surface, size.width_mm * kPointsPerMm, size.height_mm * kPointsPerMm);
}

}  // namespace

std::string pdf(const Document& document) {
  std::string bytes;
  const SheetSize first = document.sheets.empty() ? kA4Upright : document.sheets.front().size;
  cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(append, &bytes, first.width_mm * kPointsPerMm,
                                                                 first.height_mm * kPointsPerMm);
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, drawable(document.title).c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Halfhard");
  // Always the same, so that the same document gives the same bytes.
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
  cairo_t* cairo = cairo_create(surface);
  {
    Painter painter(cairo);
    for (const Sheet& sheet : document.sheets) {
      set_page(surface, sheet.size);
      cairo_identity_matrix(cairo);
      cairo_scale(cairo, kPointsPerMm, -kPointsPerMm);
      cairo_translate(cairo, 0, -sheet.size.height_mm);
      cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
      for (const Entity& entity : sheet.entities)
        for (const Primitive& primitive : drawn(entity))
          std::visit([&painter](const auto& shape) { painter(shape); }, primitive);
      cairo_show_page(cairo);
    }
  }
  cairo_destroy(cairo);
  cairo_surface_finish(surface);
  const cairo_status_t status = cairo_surface_status(surface);
  cairo_surface_destroy(surface);
  if (status != CAIRO_STATUS_SUCCESS)
    throw Trouble(std::string("the PDF cannot be drawn: ") + cairo_status_to_string(status));
  return bytes;
}

}  // namespace halfhard
