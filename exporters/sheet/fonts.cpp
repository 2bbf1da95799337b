#include "exporters/sheet/fonts.h"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_OUTLINE_H
#include <fontconfig/fontconfig.h>

#include <cstdio>
#include <map>

#include "exporters/sheet/number.h"
#include "exporters/sheet/utf8.h"
#include "geometry/base/trouble.h"

namespace halfhard {
namespace {

struct Font {
  FT_Face face = nullptr;
  FT_Face lent = nullptr;  // the same for others; opened when first asked for
  std::string file;
  int index = 0;             // in the file
  double capital_units = 1;  // height of a capital, font units
};

// What is laid for a character.
struct Letter {
  int font = -1;
  FT_UInt glyph = 0;
  double advance = 0;  // heights of a capital
};

// Where fonts-dejavu-core puts its files; asked first, because fontconfig takes longer to start than a sheet to draw.
constexpr const char* kUsualFiles[] = {"/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
                                       "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf"};

// FreeType is not safe across threads: one set a thread.
class Fonts {
 public:
  static Fonts& of_this_thread() {
    thread_local Fonts fonts;
    return fonts;
  }

  const Font& font(int index) const { return fonts_[index]; }
  FT_Face lent_face(int index) {
    Font& font = fonts_[index];
    if (!font.lent && FT_New_Face(library_, font.file.c_str(), font.index, &font.lent) != 0)
      throw Trouble("the font file " + font.file + " cannot be read any more");
    return font.lent;
  }
  // The font of ordinary text.
  int usual(bool bold) const { return bold ? 1 : 0; }
  // nullptr where no font has the character. Kept: a sheet measures the same few dozen letters thousands of times.
  const Letter* letter(char32_t c, bool bold) {
    const auto [known, fresh] = letters_.try_emplace({c, bold});
    if (fresh) known->second = find(c, bold);
    return known->second.font < 0 ? nullptr : &known->second;
  }

 private:
  Fonts() {
    if (FT_Init_FreeType(&library_) != 0) throw Trouble("the font library cannot be started");
    for (const bool bold : {false, true}) {
      if (open(kUsualFiles[bold], 0) >= 0) continue;
      const std::string file = file_by_name(bold);
      if (file.empty() || open(file, 0) < 0)
        throw Trouble("no font found: install DejaVu Sans (package fonts-dejavu-core)");
    }
  }
  ~Fonts() {
    for (const Font& font : fonts_) {
      FT_Done_Face(font.face);
      if (font.lent) FT_Done_Face(font.lent);
    }
    FT_Done_FreeType(library_);
  }

  Letter find(char32_t c, bool bold) {
    Letter letter;
    letter.font = having(c, bold);
    if (letter.font < 0) return letter;
    const Font& it = font(letter.font);
    letter.glyph = FT_Get_Char_Index(it.face, c);
    if (FT_Load_Glyph(it.face, letter.glyph, FT_LOAD_NO_SCALE) == 0) {
      letter.advance = it.face->glyph->metrics.horiAdvance / it.capital_units;
    }
    return letter;
  }
  // A font that has the character, or -1.
  int having(char32_t c, bool bold) {
    if (FT_Get_Char_Index(fonts_[usual(bold)].face, c) != 0) return usual(bold);
    if (FT_Get_Char_Index(fonts_[usual(!bold)].face, c) != 0) return usual(!bold);
    const auto known = stand_ins_.find(c);
    if (known != stand_ins_.end()) return known->second;
    return stand_ins_[c] = look_for(c);
  }

  int open(const std::string& file, int index) {
    const auto key = file + "#" + std::to_string(index);
    const auto known = opened_.find(key);
    if (known != opened_.end()) return known->second;
    FT_Face face = nullptr;
    if (FT_New_Face(library_, file.c_str(), index, &face) != 0) return -1;
    if (!FT_IS_SCALABLE(face)) {
      FT_Done_Face(face);
      return -1;
    }
    double capital = 0.7 * face->units_per_EM;
    const FT_UInt h = FT_Get_Char_Index(face, 'H');
    if (h != 0 && FT_Load_Glyph(face, h, FT_LOAD_NO_SCALE) == 0) capital = face->glyph->metrics.horiBearingY;
    fonts_.push_back({face, nullptr, file, index, capital > 0 ? capital : 0.7 * face->units_per_EM});
    return opened_[key] = static_cast<int>(fonts_.size()) - 1;
  }

  static std::string file_by_name(bool bold) {
    FcPattern* pattern = FcNameParse(reinterpret_cast<const FcChar8*>(bold ? "DejaVu Sans:bold" : "DejaVu Sans"));
    FcConfigSubstitute(nullptr, pattern, FcMatchPattern);
    FcDefaultSubstitute(pattern);
    FcResult result;
    FcPattern* match = FcFontMatch(nullptr, pattern, &result);
    std::string file;
    FcChar8* found = nullptr;
    if (match && FcPatternGetString(match, FC_FILE, 0, &found) == FcResultMatch)
      file = reinterpret_cast<const char*>(found);
    if (match) FcPatternDestroy(match);
    FcPatternDestroy(pattern);
    return file;
  }

  int look_for(char32_t c) {
    FcCharSet* wanted = FcCharSetCreate();
    FcCharSetAddChar(wanted, c);
    FcPattern* pattern = FcPatternCreate();
    FcPatternAddCharSet(pattern, FC_CHARSET, wanted);
    FcPatternAddBool(pattern, FC_SCALABLE, FcTrue);
    FcConfigSubstitute(nullptr, pattern, FcMatchPattern);
    FcDefaultSubstitute(pattern);
    FcResult result;
    FcFontSet* set = FcFontSort(nullptr, pattern, FcTrue, nullptr, &result);
    int index = -1;
    for (int i = 0; set && i < set->nfont && index < 0; ++i) {
      FcCharSet* has = nullptr;
      FcChar8* file = nullptr;
      int face = 0;
      if (FcPatternGetCharSet(set->fonts[i], FC_CHARSET, 0, &has) != FcResultMatch || !FcCharSetHasChar(has, c))
        continue;
      if (FcPatternGetString(set->fonts[i], FC_FILE, 0, &file) != FcResultMatch) continue;
      FcPatternGetInteger(set->fonts[i], FC_INDEX, 0, &face);
      index = open(reinterpret_cast<const char*>(file), face);
      if (index >= 0 && FT_Get_Char_Index(fonts_[index].face, c) == 0) index = -1;
    }
    if (set) FcFontSetDestroy(set);
    FcPatternDestroy(pattern);
    FcCharSetDestroy(wanted);
    return index;
  }

  FT_Library library_ = nullptr;
  std::vector<Font> fonts_;
  std::map<std::string, int> opened_;
  std::map<char32_t, int> stand_ins_;
  std::map<std::pair<char32_t, bool>, Letter> letters_;
};

std::string code_point_text(char32_t c) {
  char buffer[16];
  std::snprintf(buffer, sizeof buffer, "U+%04X", static_cast<unsigned>(c));
  return buffer;
}

void add_glyph(LaidLine& line, Fonts& fonts, char32_t c, bool bold) {
  const Letter* letter = fonts.letter(c, bold);
  if (!letter) {
    for (const char each : code_point_text(c)) add_glyph(line, fonts, static_cast<unsigned char>(each), bold);
    return;
  }
  const std::string bytes = utf8_of(c);
  line.glyphs.push_back({letter->font, letter->glyph, line.width, static_cast<int>(bytes.size())});
  line.content += bytes;
  line.width += letter->advance;
}

// FreeType's outline to SVG path data.
struct PathText {
  std::string data;
  double unit = 1;
  void point(const FT_Vector* p) {
    data += short_number(p->x * unit, 4);
    data += ' ';
    data += short_number(-p->y * unit, 4);
  }
};
int move_to(const FT_Vector* to, void* user) {
  auto& path = *static_cast<PathText*>(user);
  path.data += path.data.empty() ? "M" : "ZM";
  path.point(to);
  return 0;
}
int line_to(const FT_Vector* to, void* user) {
  auto& path = *static_cast<PathText*>(user);
  path.data += 'L';
  path.point(to);
  return 0;
}
int conic_to(const FT_Vector* control, const FT_Vector* to, void* user) {
  auto& path = *static_cast<PathText*>(user);
  path.data += 'Q';
  path.point(control);
  path.data += ' ';
  path.point(to);
  return 0;
}
int cubic_to(const FT_Vector* first, const FT_Vector* second, const FT_Vector* to, void* user) {
  auto& path = *static_cast<PathText*>(user);
  path.data += 'C';
  path.point(first);
  path.data += ' ';
  path.point(second);
  path.data += ' ';
  path.point(to);
  return 0;
}

}  // namespace

LaidLine lay_line(const std::string& content, bool bold) {
  Fonts& fonts = Fonts::of_this_thread();
  LaidLine line;
  for (const char32_t c : code_points(content)) add_glyph(line, fonts, c < 0x20 || c == 0x7f ? U' ' : c, bold);
  return line;
}

void* font_face(int font) { return Fonts::of_this_thread().lent_face(font); }

double em_in_capitals(int font) {
  const Font& it = Fonts::of_this_thread().font(font);
  return it.face->units_per_EM / it.capital_units;
}

std::string glyph_path(int font, unsigned long glyph) {
  const Font& it = Fonts::of_this_thread().font(font);
  if (FT_Load_Glyph(it.face, glyph, FT_LOAD_NO_SCALE) != 0 || it.face->glyph->format != FT_GLYPH_FORMAT_OUTLINE)
    return "";
  PathText path;
  path.unit = 1 / it.capital_units;
  FT_Outline_Funcs functions = {move_to, line_to, conic_to, cubic_to, 0, 0};
  FT_Outline_Decompose(&it.face->glyph->outline, &functions, &path);
  if (!path.data.empty()) path.data += 'Z';
  return path.data;
}

}  // namespace halfhard
