// The three writers, judged by programs that are not ours: ezdxf, LibreCAD, pdftoppm.
#include <gtest/gtest.h>

#include <sstream>

#include "exporters/dxf/dxf.h"
#include "exporters/pdf/pdf.h"
#include "exporters/sheet/clashes.h"
#include "exporters/svg/svg.h"
#include "tests/exporters/sheet/readers.h"
#include "tests/exporters/sheet/specimen.h"

namespace halfhard {
namespace {

using support::ask;
using support::specimen;
using support::write_scratch;

TEST(Dxf, AnIndependentReaderAuditsItWithoutErrorOrFix) {
  for (const LengthUnit unit : {LengthUnit::mm, LengthUnit::inch}) {
    const auto said =
        ask(support::python("measure_dxf.py") + write_scratch("audit.dxf", dxf(specimen(5, unit))).string());
    EXPECT_EQ(said.status, 0) << said.text;
    EXPECT_NE(said.text.find("audit 0 0"), std::string::npos) << said.text;
    EXPECT_NE(said.text.find("units 4 1 AC1024"), std::string::npos) << said.text;
    EXPECT_NE(said.text.find("45°"), std::string::npos) << "read as UTF-8";
    for (const char* layer : {"OUTLINE", "HIDDEN", "CENTRE", "DIMENSION", "TEXT", "TABLE", "FRAME", "MARK", "FIXTURE"})
      EXPECT_NE(said.text.find(layer), std::string::npos) << layer;
  }
}

TEST(Dxf, EachDimensionMeasuresInAnotherReaderWhatItSays) {
  for (const LengthUnit unit : {LengthUnit::mm, LengthUnit::inch}) {
    const Sheet sheet = specimen(5, unit);
    const auto said = ask(support::python("measure_dxf.py") + write_scratch("measure.dxf", dxf(sheet)).string());
    std::vector<double> read;
    std::istringstream lines(said.text);
    for (std::string line; std::getline(lines, line);) {
      std::istringstream fields(line);
      std::string word;
      double kind, value, factor;
      if (fields >> word >> kind >> value >> factor && word == "dimension") read.push_back(value * factor);
    }
    std::vector<double> ours;
    for (const Entity& entity : sheet.entities) {
      const auto* d = std::get_if<Dimension>(&entity);
      if (!d) continue;
      ours.push_back(measured(*d) / (unit == LengthUnit::inch && d->kind != DimensionKind::angular ? 25.4 : 1));
    }
    ASSERT_EQ(read.size(), ours.size()) << said.text;
    ASSERT_EQ(ours.size(), 7u);
    for (std::size_t i = 0; i < ours.size(); ++i) EXPECT_NEAR(read[i], ours[i], 1e-3 / 25.4) << i << said.text;
  }
}

TEST(Dxf, AnotherCadProgramOpensAndPlotsIt) {
  const auto drawing = write_scratch("plot.dxf", dxf(specimen(2)));
  const auto plotted = support::scratch_file("plot.pdf");
  std::filesystem::remove(plotted);
  const auto said = ask("QT_QPA_PLATFORM=offscreen timeout 60 librecad dxf2pdf -a " + drawing.string());
  ASSERT_TRUE(std::filesystem::exists(plotted)) << said.text;
  EXPECT_GT(std::filesystem::file_size(plotted), 5000u);
}

TEST(Writers, TheSameSheetGivesTheSameBytes) {
  EXPECT_EQ(dxf(specimen()), dxf(specimen()));
  EXPECT_EQ(svg(specimen()), svg(specimen()));
  EXPECT_EQ(pdf({"twice", {specimen(), specimen()}}), pdf({"twice", {specimen(), specimen()}}));
}

// The darkest pixel columns of a page at 254 dpi: 10 pixels a mm.
TEST(Pdf, AHundredMillimetresAreAHundredOnThePage) {
  Sheet sheet;
  const Pen pen = {Layer::outline, LineStyle::continuous, 0.18, std::nullopt};
  sheet.add(line_between({50, 100}, {50, 200}, pen));
  sheet.add(line_between({150, 100}, {150, 200}, pen));
  const auto page = write_scratch("hundred.pdf", pdf({"hundred", {sheet}}));
  const auto picture = support::scratch_file("hundred");
  const auto said = ask("pdftoppm -r 508 -gray -singlefile " + page.string() + " " + picture.string());
  std::ifstream in(picture.string() + ".pgm", std::ios::binary);
  std::string magic;
  int width = 0, height = 0, most = 0;
  in >> magic >> width >> height >> most;
  ASSERT_EQ(magic, "P5") << said.text;
  in.get();
  std::string pixels(static_cast<std::size_t>(width) * height, '\0');
  in.read(pixels.data(), static_cast<std::streamsize>(pixels.size()));
  double sum[2] = {0, 0}, weight[2] = {0, 0};
  for (int x = 0; x < width; ++x) {
    const double dark = 255 - static_cast<unsigned char>(pixels[static_cast<std::size_t>(height / 2) * width + x]);
    const int side = x < width / 2 ? 0 : 1;
    sum[side] += dark * (x + 0.5);
    weight[side] += dark;
  }
  ASSERT_GT(weight[0], 0);
  ASSERT_GT(weight[1], 0);
  const double mm = (sum[1] / weight[1] - sum[0] / weight[0]) * 25.4 / 508;
  EXPECT_NEAR(mm, 100, 0.1);
  EXPECT_NEAR(width * 25.4 / 508, 210, 0.1);
}

TEST(Pdf, FontsAreEmbeddedAndWordsCanBeSearched) {
  const auto page = write_scratch("fonts.pdf", pdf({"fonts", {specimen()}}));
  const auto fonts = ask("pdffonts " + page.string());
  EXPECT_NE(fonts.text.find("DejaVuSans"), std::string::npos) << fonts.text;
  EXPECT_EQ(fonts.text.find(" no  "), std::string::npos) << fonts.text;
  const auto words = ask("pdftotext " + page.string() + " -");
  for (const char* word : {"45°", "ø", "½", "Москва", "Αθήνα", "every kind of entity"})
    EXPECT_NE(words.text.find(word), std::string::npos) << word << words.text;
}

TEST(Text, ACharacterThatNoFontHasIsSpelledOut) {
  EXPECT_EQ(drawable("a\U0010fffdb"), "aU+10FFFDb");
  EXPECT_EQ(drawable("a\xff"), "a\xef\xbf\xbd");
  EXPECT_EQ(drawable("a\nb"), "a b");
}

TEST(Text, WidthGrowsInProportionToHeight) {
  EXPECT_GT(text_width_mm("150", 2.5), 4);
  EXPECT_LT(text_width_mm("150", 2.5), 9);
  EXPECT_NEAR(text_width_mm("150", 5), 2 * text_width_mm("150", 2.5), 1e-9);
}

TEST(Text, WrappedLinesFitAndLoseNothing) {
  const std::string words = "Isolate and drain before you cut. Averyverylongwordwithoutanyspaceinit 15 mm.";
  std::string joined;
  for (const std::string& line : wrapped(words, 40, 2.5)) {
    EXPECT_LE(text_width_mm(line, 2.5), 40);
    joined += line;
  }
  std::string plain = words;
  std::erase(plain, ' ');
  std::erase(joined, ' ');
  EXPECT_EQ(joined, plain);
}

TEST(Clashes, OverlapsAndTextsOutsideTheFrameAreFound) {
  Sheet sheet;
  Text text;
  text.content = "pipe";
  text.at = {50, 50};
  sheet.add(text);
  EXPECT_TRUE(text_clashes(sheet).empty());
  text.at = {52, 51};
  text.rotation_deg = 30;
  sheet.add(text);
  ASSERT_EQ(text_clashes(sheet).size(), 1u);
  text.at = {205, 100};
  sheet.add(text);
  EXPECT_EQ(text_clashes(sheet).size(), 2u);
  EXPECT_TRUE(line_clashes(sheet).empty());
  sheet.add(line_between({40, 51}, {60, 51}, pen_of(Layer::outline)));
  EXPECT_FALSE(line_clashes(sheet).empty());
}

TEST(Svg, IsInMillimetresAndKeepsItsWords) {
  const std::string text = svg(specimen());
  EXPECT_NE(text.find("width=\"210mm\" height=\"297mm\" viewBox=\"0 0 210 297\""), std::string::npos);
  EXPECT_NE(text.find("45°"), std::string::npos);
  const auto said = ask("xmllint --noout " + write_scratch("specimen.svg", text).string());
  EXPECT_EQ(said.status, 0) << said.text;
}

}  // namespace
}  // namespace halfhard
