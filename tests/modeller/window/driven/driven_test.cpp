// The window driven as a person would, by the toolkit's own test events on a display of its own.
#include <gtest/gtest.h>

#include <QtWidgets>

#include "tests/modeller/window/driven/driven.h"
#include "viewer/vtk/display.h"
#include "viewer/vtk/picture.h"

namespace halfhard {
namespace {

TEST_F(Driven, AValueIsTypedUndoneTypedAgainSavedAndFoundOnReopening) {
  const std::string first = window_->document().text();
  window_->choose("/runs/0");
  ASSERT_TRUE(type("/runs/0/keep_clear", "3 + 4"));
  EXPECT_EQ(window_->document().plan()->runs.front()->keep_clear_mm, 7);
  window_->undo();
  while (window_->document().can_undo()) window_->undo();
  EXPECT_EQ(window_->document().text(), first);
  window_->choose("/banks/0");
  ASSERT_TRUE(type("/banks/0/count", "5"));
  EXPECT_EQ(window_->document().plan()->runs.size(), 5u);
  ASSERT_TRUE(window_->save());
  open();
  EXPECT_EQ(window_->document().plan()->runs.size(), 5u);
}

TEST_F(Driven, WhatCannotBeUsedIsSaidBesideTheFieldAndNothingElseChanges) {
  window_->choose("/banks/0");
  const auto plan = window_->document().plan();
  QLineEdit* field = type("/banks/0/count", "*");
  ASSERT_TRUE(field);
  EXPECT_TRUE(field->property("trouble").toBool());
  EXPECT_EQ(window_->document().plan()->runs.size(), plan->runs.size());
  EXPECT_EQ(on_disk(), window_->document().text());
}

TEST_F(Driven, AJobWithTwoFaultsIsPutRightOneByOne) {
  std::string text = on_disk();
  const auto spoil = [&](const std::string& good, const std::string& bad) {
    const size_t at = text.find(good);
    ASSERT_NE(at, std::string::npos);
    text.replace(at, good.size(), bad);
  };
  spoil("\"count\": 8", "\"count\": 0");
  spoil("\"keep_clear\": 5,", "\"keep_clear\": \"nonsense\",");
  std::ofstream(file_, std::ios::binary) << text;
  open();
  EXPECT_FALSE(window_->document().plan());
  EXPECT_EQ(window_->document().problems().size(), 2u);
  QListWidget* problems = window_->findings().list();
  for (int row = 0; row < problems->count(); ++row)
    if (problems->item(row)->text().contains("/banks/0"))
      QTest::mouseClick(problems->viewport(), Qt::LeftButton, {},
                        problems->visualItemRect(problems->item(row)).center());
  EXPECT_EQ(window_->items().chosen(), "/banks/0") << "picking a fault goes to its part";
  ASSERT_TRUE(type("/banks/0/count", "3"));
  EXPECT_EQ(window_->document().problems().size(), 1u);
  for (const char* pointer : {"/runs/0/keep_clear", "/fixtures/2/keep_clear"}) {
    window_->choose(std::string(pointer).substr(0, std::string(pointer).rfind('/')));
    if (window_->hand().field(pointer)) type(pointer, "6");
  }
  ASSERT_TRUE(window_->document().plan());
  EXPECT_TRUE(window_->document().problems().empty());
  EXPECT_EQ(window_->document().plan()->runs.size(), 3u);
  EXPECT_FALSE(window_->view().drawn().parts.empty());
}

TEST_F(Driven, AClickOnAPipeChoosesItAndItsBendsRow) {
  ViewPanel& view = window_->view();
  view.look(NamedView::isometric);
  const halfhard::Run& run = *window_->document().plan()->runs.back();
  const Bend& bend = run.bends.front();
  const double along =
      (bend.start_of_bend_mm + bend.end_of_bend_mm) / 2 - run.spare_datum_mm - run.datum_insertion_mm();
  view.fly_to(run.line.point_at(along), 60);
  QTest::mouseClick(&view, Qt::LeftButton, {}, QPoint(view.width() / 2, view.height() / 2));
  EXPECT_EQ(window_->items().chosen(), "/runs/0");
  EXPECT_EQ(window_->bends().chosen(), bend.number);
}

TEST_F(Driven, SteppingThroughTheBendsShowsThePieceInTheBender) {
  window_->choose("/runs/0");
  QTest::qWait(50);
  const QImage job = window_->view().grabFramebuffer();
  const size_t parts = window_->view().drawn().parts.size();
  window_->show_bending(1, 0.5);
  EXPECT_NE(window_->view().drawn().parts.size(), parts);
  QTest::qWait(50);
  const QImage bender = window_->view().grabFramebuffer();
  EXPECT_NE(bender, job) << "the picture follows";
  window_->show_bending(1, 1);
  QTest::qWait(50);
  EXPECT_NE(window_->view().grabFramebuffer(), bender);
  window_->show_bending(0, 0);
  EXPECT_FALSE(window_->view().drawn().parts.empty());
}

TEST_F(Driven, TheWholeJobStaysInThePictureWhenTheWindowIsResizedUntilTheEyeIsMoved) {
  ViewPanel& view = window_->view();
  const auto whole = [&] {
    const ViewFrame fitted = fitted_view(NamedView::isometric, view.drawn().framing, view.width(), view.height());
    return std::abs(view.frame().half_height_mm - fitted.half_height_mm) < 1e-9;
  };
  EXPECT_TRUE(whole()) << "as it opens";
  window_->resize(900, 1000);
  QCoreApplication::processEvents();
  EXPECT_TRUE(whole());
  view.fly_to(Vec3::Zero(), 60);
  window_->resize(1280, 720);
  QCoreApplication::processEvents();
  EXPECT_EQ(view.frame().half_height_mm, 60);
}

TEST(Picture, IsNotBlankAndIsTheSameBytesTwice) {
  const Document document = Document::opened(std::string(HALFHARD_SAMPLES) + "/basin-bank.json", {});
  ASSERT_TRUE(document.plan());
  PictureOptions options;
  options.width = 640;
  options.height = 400;
  const std::string png = picture_png(*document.plan(), options);
  EXPECT_EQ(png, picture_png(*document.plan(), options));
  const QImage image = QImage::fromData(reinterpret_cast<const uchar*>(png.data()), static_cast<int>(png.size()));
  ASSERT_EQ(image.size(), QSize(640, 400));
  int copper = 0;
  for (int y = 0; y < image.height(); ++y)
    for (int x = 0; x < image.width(); ++x) {
      const QColor colour = image.pixelColor(x, y);
      copper += colour.red() > colour.blue() + 50 && colour.red() > colour.green() + 20;
    }
  EXPECT_GT(copper, 300);
}

}  // namespace
}  // namespace halfhard

int main(int argc, char** argv) {
  ::testing::InitGoogleTest(&argc, argv);
  // What the window keeps for a person goes where it is taken away afterwards.
  QTemporaryDir own;
  for (const char* name : {"XDG_CONFIG_HOME", "XDG_DATA_HOME"}) qputenv(name, own.path().toLocal8Bit());
  halfhard::PrivateDisplay display;
  if (!display.start()) {
    std::fprintf(stderr, "%s\n", display.problem().c_str());
    return 3;
  }
  QApplication application(argc, argv);
  return RUN_ALL_TESTS();
}
