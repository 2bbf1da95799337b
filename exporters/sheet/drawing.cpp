#include "exporters/sheet/drawing.h"

#include "exporters/sheet/dimension.h"
#include "exporters/sheet/sheet_table.h"

namespace halfhard {

const char* layer_name(Layer layer) {
  switch (layer) {
    case Layer::outline:
      return "OUTLINE";
    case Layer::hidden:
      return "HIDDEN";
    case Layer::centre:
      return "CENTRE";
    case Layer::dimension:
      return "DIMENSION";
    case Layer::text:
      return "TEXT";
    case Layer::table:
      return "TABLE";
    case Layer::frame:
      return "FRAME";
    case Layer::mark:
      return "MARK";
    case Layer::fixture:
      return "FIXTURE";
  }
  return "TEXT";
}

// Widths: line group 0.5 of ISO 128 (from memory): wide lines .5, narrow lines .25; the frame .7 is ISO 5457's.
Pen pen_of(Layer layer) {
  switch (layer) {
    case Layer::outline:
      return {layer, LineStyle::continuous, 0.5, std::nullopt};
    case Layer::hidden:
      return {layer, LineStyle::dashed, 0.25, std::nullopt};
    case Layer::centre:
      return {layer, LineStyle::chain, 0.25, std::nullopt};
    case Layer::frame:
      return {layer, LineStyle::continuous, 0.7, std::nullopt};
    case Layer::mark:
      return {layer, LineStyle::continuous, 0.35, std::nullopt};
    case Layer::fixture:
      return {layer, LineStyle::continuous, 0.35, std::nullopt};
    case Layer::dimension:
    case Layer::text:
    case Layer::table:
      break;
  }
  return {layer, LineStyle::continuous, 0.25, std::nullopt};
}

std::vector<Primitive> drawn(const Entity& entity) {
  return std::visit(
      [](const auto& shape) -> std::vector<Primitive> {
        using Drawn = std::decay_t<decltype(shape)>;
        if constexpr (std::is_same_v<Drawn, Dimension>) {
          return drawn_dimension(shape);
        } else if constexpr (std::is_same_v<Drawn, Table>) {
          return drawn_table(shape);
        } else {
          return {shape};
        }
      },
      entity);
}

Polyline rectangle(const Vec2& corner, const Vec2& opposite, const Pen& pen) {
  return {{corner, {opposite.x(), corner.y()}, opposite, {corner.x(), opposite.y()}}, true, pen};
}

}  // namespace halfhard
