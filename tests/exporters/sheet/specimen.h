// One sheet with every kind of entity on it, for the tests of the writers.
#pragma once

#include "exporters/sheet/frame.h"

namespace halfhard::support {

inline Sheet specimen(double scale = 1, LengthUnit unit = LengthUnit::mm) {
  Sheet sheet;
  sheet.title = "Specimen";
  sheet.scale = scale;
  sheet.unit = unit;
  TitleFields fields;
  fields.title = "Specimen";
  fields.subtitle = "every kind of entity";
  fields.document_type = "Test";
  sheet.add(frame(sheet.size, fields).entities);
  const auto dimension = [&](DimensionKind kind, Vec2 first, Vec2 second, Vec2 through) {
    Dimension d;
    d.kind = kind;
    d.first = first;
    d.second = second;
    d.line_through = through;
    d.scale = scale;
    return d;
  };
  sheet.add(rectangle({40, 200}, {140, 220}, pen_of(Layer::outline)));
  sheet.add(with_text(dimension(DimensionKind::aligned, {40, 200}, {140, 200}, {40, 190}), unit));
  Dimension upright = dimension(DimensionKind::linear, {140, 200}, {135, 220}, {150, 200});
  upright.direction_deg = 90;
  sheet.add(with_text(upright, unit));
  sheet.add(with_text(dimension(DimensionKind::aligned, {60, 240}, {62.5, 241}, {60, 250}), unit));
  Dimension angle = dimension(DimensionKind::angular, {70, 130}, {61.2, 151.2}, {60, 140});
  angle.vertex = {40, 130};
  sheet.add(with_text(angle, unit));
  sheet.add(circle({100, 140}, 10, pen_of(Layer::mark)));
  sheet.add(with_text(dimension(DimensionKind::radius, {100, 140}, {107.0710678, 147.0710678}, {114, 154}), unit));
  sheet.add(with_text(dimension(DimensionKind::diameter, {90, 140}, {110, 140}, {116, 140}), unit));
  // A view at twice the sheet's scale, so that its factor is not 1.
  Dimension detail = dimension(DimensionKind::aligned, {40, 270}, {100, 270}, {40, 262});
  detail.scale = scale / 2;
  sheet.add(with_text(detail, unit));
  sheet.add(ArcCurve{{150, 140}, 10, 30, 200, pen_of(Layer::hidden)});
  sheet.add(EllipseArc{{175, 140}, {8, 8}, 0.4, 0, 360, pen_of(Layer::centre)});
  sheet.add(EllipseArc{{175, 160}, {8, -2}, 0.5, 300, 130, pen_of(Layer::outline)});
  Area hatched{{{{150, 170}, {190, 170}, {190, 185}, {150, 185}}, {{160, 174}, {170, 174}, {170, 180}, {160, 180}}},
               Hatching{},
               pen_of(Layer::fixture)};
  sheet.add(hatched);
  Area filled{{{{150, 100}, {190, 100}, {195, 110}, {170, 120}, {150, 115}}},
              std::nullopt,
              {Layer::mark, {}, 0.25, Colour{1, .8, .2}}};
  sheet.add(filled);
  Table table;
  table.top_left = {30, 110};
  table.columns.assign(3, {});
  table.rows = {
      {"bend", "angle\nset", "mark"}, {"1", "45° / 46°", "62.5"}, {"2", "ø15 ½ 100%% ^", "\xd7\xa9\xd7\x9c Ω Ж"}};
  sheet.add(fitted(table));
  Text title;
  title.content = "Αθήνα Москва 東京 \xff";
  title.at = {40, 255};
  title.height_mm = 5;
  sheet.add(title);
  return sheet;
}

}  // namespace halfhard::support
