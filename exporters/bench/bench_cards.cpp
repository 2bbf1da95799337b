#include "exporters/bench/bench_cards.h"

#include <algorithm>
#include <string>

#include "exporters/bench/bend_rows.h"
#include "exporters/bench/bender_picture.h"
#include "exporters/bench/clock_face.h"
#include "exporters/bench/located_mark.h"
#include "exporters/bench/tick_list.h"
#include "exporters/sheet/frame.h"
#include "exporters/sheet/text_metrics.h"
#include "geometry/bending/clock.h"

namespace halfhard {
namespace {

constexpr double kPad_mm = 3;
constexpr double kStep_mm = 3;                                                         // capitals of the steps' text
constexpr double kUsualPicture_mm = 84, kLeastPicture_mm = 64, kMostPicture_mm = 130;  // height of the pictures
constexpr double kFigures_mm = 18;
constexpr double kCaution_mm = 2.5;
constexpr double kCaptionRoom_mm = 7;
constexpr double kTickHeading_mm = 5;

// A card being filled from the top down.
class Card {
 public:
  Card(const Plan& plan, const Run& run, std::string shows) {
    sheet_.size = kA4Upright;
    sheet_.unit = plan.unit;
    sheet_.title = run.name + ", " + shows;
    TitleFields fields = title_fields(plan, run.name + ": " + shows, "Bench card");
    fields.shows_projection = false;
    fields_ = fields;
    const Framed framed = frame(sheet_.size, fields);
    border_ = framed.border;
    foot_ = border_.bottom + framed.block_height_mm + kPad_mm;
    y_ = border_.top - kPad_mm;
  }

  double left() const { return border_.left + kPad_mm; }
  double right() const { return border_.right - kPad_mm; }
  double top() const { return y_; }
  double room() const { return y_ - foot_; }
  void down(double mm) { y_ -= mm; }
  void add(std::vector<Entity> entities) { sheet_.add(std::move(entities)); }
  void add(Entity entity) { sheet_.add(std::move(entity)); }

  // A paragraph across `width`, then down past it.
  void write(const std::string& text, double x, double width, double height, bool bold = false) {
    Paragraph block = paragraph(text, {x, y_}, width, height, bold);
    sheet_.add(std::move(block.texts));
    y_ -= block.height_mm + 0.8 * height;
  }

  Sheet finished(int number, int of) {
    fields_.sheet = number;
    fields_.sheets = of;
    sheet_.add(frame(sheet_.size, fields_).entities);
    return std::move(sheet_);
  }

 private:
  Sheet sheet_;
  TitleFields fields_;
  Border border_;
  double y_ = 0, foot_ = 0;
};

void add_heading(Card& card, const std::string& heading, const std::vector<std::string>& failures) {
  card.write(heading, card.left(), card.right() - card.left(), 5, true);
  if (failures.empty()) return;
  const double top = card.top();
  card.down(2);
  for (const std::string& reason : failures)
    card.write(reason, card.left() + 2, card.right() - card.left() - 4, failures.size() > 2 ? 2.5 : 3.5, true);
  card.add(rectangle({card.left(), card.top()}, {card.right(), top},
                     {Layer::frame, LineStyle::continuous, 0.7, Colour{0.8, 0, 0}}));
  card.down(3);
}

void add_picture(Card& card, const BenderPicture& picture, const std::string& caption, const Vec2& low,
                 const Vec2& high) {
  card.add(rectangle(low, high, {Layer::table, LineStyle::continuous, 0.25, std::nullopt}));
  Text text;
  text.content = caption;
  text.at = {low.x() + 2, high.y() - 5};
  text.height_mm = 3.5;
  text.bold = true;
  card.add(std::move(text));
  card.add(bender_picture(picture, low + Vec2(1, 1), high - Vec2(1, kCaptionRoom_mm)));
}

// Side by side or one above the other, whichever draws them larger.
void add_pictures(Card& card, const Plan& plan, const Run& run, const BendRow& row, bool may_be_made, double height) {
  const double tube_radius = run.tube->outside_radius_mm();
  BenderPicture before{before_bend(run, row.made), tube_radius, run.bender->stands, {}, true, {}, ""};
  BenderPicture after{after_bend(run, row.made), tube_radius, run.bender->stands, {}, true, {}, ""};
  if (may_be_made) {
    before.mark_label = row.mark_from_end ? "mark, " + row.mark + " from " + row.mark_from : "mark";
    before.check = located_mark(run, run.bends[row.number - 1]);
    before.check_label = row.mark;
    after.check = located_check(run, row.number, plan.tolerance.length_mm);
    after.check_label = row.check;
  }
  const std::string after_caption = "After: bent to " + row.angle;

  const Vec2 whole(card.right() - card.left(), height), margin(2, 1 + kCaptionRoom_mm);
  const Vec2 beside(whole.x() / 2, whole.y()), above(whole.x(), whole.y() / 2);
  const auto smaller = [&](const Vec2& size) {
    return std::min(picture_scale(before, size - margin), picture_scale(after, size - margin));
  };
  const Vec2 cell = smaller(beside) >= smaller(above) ? beside : above;
  const Vec2 low(card.left(), card.top() - height), high(card.right(), card.top());
  add_picture(card, before, "Before", {low.x(), high.y() - cell.y()}, {low.x() + cell.x(), high.y()});
  add_picture(card, after, after_caption, {high.x() - cell.x(), low.y()}, {high.x(), low.y() + cell.y()});
  card.down(height + 1.5);
  const bool stands = points_in_words(run.bender->stands, Angle()).has_value();
  card.write(
      stands
          ? "Seen from where you stand, the bender as the job says it stands. Not to scale; long straights cut short."
          : "Drawn with the hook on your left and the lever swinging towards you: the job does not say how "
            "the bender stands. Not to scale; long straights cut short.",
      card.left(), card.right() - card.left(), 1.8);
}

// One of the figures, with what it is above it and, for the mark, where it is taken from below.
struct Figure {
  std::string label, value, from;
  double share;  // of the card's width, by the others
};

// The figures large enough to read from the bench.
void add_figures(Card& card, const BendRow& row, LengthUnit unit) {
  const std::string length = unit == LengthUnit::mm ? " (mm)" : " (inches)";
  const Figure figures[] = {{"mark" + length, row.mark, "from " + row.mark_from, 1.7},
                            {"pull to", row.set_angle, "", 0.8},
                            {"for", row.angle, "", 0.8},
                            {row.rule + ", pulling", row.rule_while_pulling, "", 1.1},
                            {row.rule + ", let go", row.rule_after, "", 1.1},
                            {"check" + length, row.check, "", 1.2}};
  double shares = 0;
  for (const Figure& figure : figures) shares += figure.share;
  const double top = card.top(), foot = top - kFigures_mm;
  double x = card.left();
  for (const Figure& figure : figures) {
    const double width = (card.right() - card.left()) * figure.share / shares;
    card.add(rectangle({x, foot}, {x + width, top}, {Layer::table, LineStyle::continuous, 0.35, std::nullopt}));
    Text label, value;
    label.content = figure.label;
    label.at = {x + 1.2, top - 3};
    label.height_mm = 1.8;
    value.content = figure.value;
    value.at = {x + width / 2, top - 10.5};
    value.height_mm = 5;
    for (const double smaller : {3.5, 2.5, 1.8})
      if (text_width_mm(value.content, value.height_mm, true) > width - 2) value.height_mm = smaller;
    value.anchor_x = AnchorX::centre;
    value.bold = true;
    card.add(label);
    card.add(value);
    if (!figure.from.empty()) card.add(paragraph(figure.from, {x + 1.2, top - 12.2}, width - 2, 1.8, true, 2.6).texts);
    x += width;
  }
  card.down(kFigures_mm + 3);
}

std::vector<std::string> steps_of(const Run& run, const BendTableText& table, const BendRow& row) {
  std::vector<std::string> steps;
  const bool first = row.made == 1, last = row.made == static_cast<int>(table.rows.size());
  if (!row.remark.empty()) steps.push_back(row.remark);
  if (first) steps.push_back(table.blank_text);
  if (first && run.marking == Marking::all && table.rows.size() > 1) {
    std::string marks = "Lay all marks now, each from the start end with the tape held there: ";
    for (size_t i = 0; i < table.rows.size(); ++i)
      marks += (i > 0 ? ", " : "") + table.rows[i].mark + " (bend " + std::to_string(table.rows[i].number) + ")";
    steps.push_back(marks + ".");
  }
  steps.push_back(row.mark_text + " Ring it in pencil or felt pen; never scribe it.");
  if (row.turned) steps.push_back("Draw a line along the tube through the mark, to turn it by.");
  steps.push_back(row.hook_text + " " + row.held_text);
  if (!row.clock_text.empty()) steps.push_back(row.clock_text);
  steps.push_back("Pull to " + row.set_angle + ", let go, and measure " + row.angle + ". The points of a " + row.rule +
                  " hinged at " + row.rule_hinge + " stand " + row.rule_while_pulling + " apart while pulling, " +
                  row.rule_after + " after letting go.");
  steps.push_back(row.check_text);
  if (last) {
    for (const std::string& lean : table.after) steps.push_back(lean);
    if (!table.trim_text.empty()) steps.push_back(table.trim_text);
  }
  return steps;
}

void add_steps(Card& card, const std::vector<std::string>& steps, double width) {
  for (size_t i = 0; i < steps.size(); ++i) {
    Text number;
    number.content = std::to_string(i + 1);
    number.at = {card.left() + 1, card.top()};
    number.height_mm = kStep_mm;
    number.anchor_y = AnchorY::top;
    number.bold = true;
    card.add(number);
    card.write(steps[i], card.left() + 7, width - 7, kStep_mm);
  }
}

void add_clock(Card& card, const Run& run, int made) {
  constexpr double kDial_mm = 15;
  const Vec2 centre(card.right() - kDial_mm - 7, card.top() - kDial_mm - 5);
  card.add(clock_face(clock_readings(run, made), centre, kDial_mm));
  Paragraph under =
      paragraph("from the hook, along the tube", centre + Vec2(-kDial_mm - 5, -kDial_mm - 7), 2 * kDial_mm + 10, 1.8);
  card.add(std::move(under.texts));
}

// Pieces to tick, as many as there is room for; the rest go to cards of their own.
void add_ticks(std::vector<Card>& cards, const Plan& plan, const Run& run, const std::string& shows) {
  const std::vector<std::string> names = piece_lines(plan, run);
  if (names.size() < 2) return;
  size_t next = 0;
  while (next < names.size()) {
    if (next > 0 || cards.back().room() < kTickHeading_mm + 8) {
      cards.emplace_back(plan, run, shows + ", pieces to tick");
      add_heading(cards.back(), run.name + ": " + shows + ", pieces to tick", reasons_not_to_make(plan, run));
    }
    Card& card = cards.back();
    card.write(std::to_string(names.size()) + " pieces alike. Tick each one when this is made and checked:",
               card.left(), card.right() - card.left(), 2.5, true);
    const TickList list = tick_list(names, next, {card.left() + 1, card.top()}, card.right() - card.left() - 2,
                                    std::max(7.0, card.room() - 1));
    card.add(list.entities);
    card.down(list.height_mm + 2);
    next = list.next;
  }
}

// What the ticks of all pieces take, heading included.
double ticks_height_mm(const Card& card, const Plan& plan, const Run& run) {
  const std::vector<std::string> names = piece_lines(plan, run);
  if (names.size() < 2) return 0;
  return kTickHeading_mm + 2 + tick_list(names, 0, {0, 0}, card.right() - card.left() - 2, 1e6).height_mm;
}

Card straight_card(const Plan& plan, const Run& run, const BendTableText& table) {
  Card card(plan, run, "cut");
  add_heading(card, run.name + ": a straight piece", reasons_not_to_make(plan, run));
  card.write(table.tube_and_bender, card.left(), card.right() - card.left(), kCaution_mm);
  card.write(table.blank_text, card.left(), card.right() - card.left(), kStep_mm);
  if (!table.trim_text.empty()) card.write(table.trim_text, card.left(), card.right() - card.left(), kStep_mm);
  return card;
}

std::string shown_bend(const BendTableText& table, const BendRow& row) {
  return "bend " + std::to_string(row.number) + ", made " + std::to_string(row.made) + " of " +
         std::to_string(table.rows.size());
}

// How a card is laid out: what gives way where there is little room.
struct CardLayout {
  double picture_mm = kUsualPicture_mm;
  bool all_cautions = true;  // on the last card, beside those of the bender
};

Card bend_card(const Plan& plan, const Run& run, const BendTableText& table, const BendRow& row,
               const CardLayout& layout) {
  const bool may_be_made = table.not_to_be_made.empty();
  Card card(plan, run, shown_bend(table, row));
  const double width = card.right() - card.left();
  add_heading(card, run.name + ": " + shown_bend(table, row), reasons_not_to_make(plan, run));
  card.write(table.tube_and_bender, card.left(), width, kCaution_mm);
  add_pictures(card, plan, run, row, may_be_made, layout.picture_mm);
  if (!may_be_made) {
    card.write("Not to be made: no mark, no check and no work are given.", card.left(), width, kStep_mm, true);
    return card;
  }
  add_figures(card, row, plan.unit);
  const double beside = card.top();
  add_clock(card, run, row.made);
  add_steps(card, steps_of(run, table, row), width - 48);
  card.down(std::max(0.0, 46 - (beside - card.top())));
  card.write(kBenchCaution, card.left(), width, kCaution_mm, true);
  if (row.made == static_cast<int>(table.rows.size())) {
    card.write(table.likely_error, card.left(), width, kCaution_mm);
    if (layout.all_cautions) card.write(table.cautions, card.left(), width, 1.8);
  }
  return card;
}

Card caution_card(const Plan& plan, const Run& run, const BendTableText& table) {
  Card card(plan, run, "before you fit it");
  add_heading(card, run.name + ": before you fit it", reasons_not_to_make(plan, run));
  const double width = card.right() - card.left();
  card.write(kBenchCaution, card.left(), width, kStep_mm, true);
  card.write(table.cautions, card.left(), width, kStep_mm);
  return card;
}

// The pictures take what the words and the ticks leave.
Card filled_card(const Plan& plan, const Run& run, const BendTableText& table, const BendRow& row,
                 bool& cautions_said) {
  CardLayout layout;
  Card card = bend_card(plan, run, table, row, layout);
  const double ticks = table.not_to_be_made.empty() ? ticks_height_mm(card, plan, run) : 0;
  if (card.room() - ticks < kLeastPicture_mm - kUsualPicture_mm) {
    layout.all_cautions = cautions_said = false;
    card = bend_card(plan, run, table, row, layout);
  }
  const double most = kUsualPicture_mm + card.room() - 1;
  double height = most - ticks;
  if (height < kLeastPicture_mm) height = std::min(most, kUsualPicture_mm);  // they go on a card of their own anyway
  layout.picture_mm = std::clamp(height, kLeastPicture_mm, kMostPicture_mm);
  return layout.picture_mm == kUsualPicture_mm ? std::move(card) : bend_card(plan, run, table, row, layout);
}

}  // namespace

bool leads_its_pieces(const Plan& plan, const Run& run) {
  return plan.runs[pieces_alike(plan, run).front()]->name == run.name;
}

std::vector<Sheet> bench_cards(const Plan& plan, const Run& run) {
  const BendTableText table = bend_table_rows(plan, run);
  std::vector<Card> cards;
  if (table.rows.empty()) {
    cards.push_back(straight_card(plan, run, table));
    if (table.not_to_be_made.empty()) add_ticks(cards, plan, run, "cut");
  }
  for (const BendRow& row : table.rows) {
    bool cautions_said = true;
    cards.push_back(filled_card(plan, run, table, row, cautions_said));
    // Cautions never give way: what has no room on the last card has one of its own.
    const bool last = row.made == static_cast<int>(table.rows.size());
    if (last && !cautions_said) cards.push_back(caution_card(plan, run, table));
    if (table.not_to_be_made.empty()) add_ticks(cards, plan, run, shown_bend(table, row));
  }
  std::vector<Sheet> sheets;
  for (size_t i = 0; i < cards.size(); ++i)
    sheets.push_back(cards[i].finished(static_cast<int>(i) + 1, static_cast<int>(cards.size())));
  return sheets;
}

}  // namespace halfhard
