#include "exporters/step/assembly.h"

namespace halfhard {
namespace {

void append_list(Part21Text& text, const std::vector<EntityRef>& entities) {
  text.append("(");
  for (std::size_t i = 0; i < entities.size(); ++i) {
    if (i > 0) text.append(",");
    text.append(entities[i]);
  }
  text.append(")");
}

EntityRef add_representation(Part21Text& text, const char* type, const std::vector<EntityRef>& items,
                             EntityRef context) {
  text.start_entity();
  text.append(type);
  text.append("('',");
  append_list(text, items);
  text.append(",");
  text.append(context);
  text.append(")");
  return text.end_entity();
}

EntityRef add_frame(Part21Text& text, const Frame& frame) {
  return add_placement(text, frame.origin, frame.axes.col(2), frame.axes.col(0));
}

std::string unique(std::set<std::string>& taken, const std::string& name) {
  std::string id = name;
  for (int copy = 2; !taken.insert(id).second; ++copy) id = name + " (" + std::to_string(copy) + ")";
  return id;
}

}  // namespace

AssemblyWriter::AssemblyWriter(Part21Text& text, double uncertainty_mm) : text_(text) {
  application_ = text_.add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')");
  text_.add("APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,", application_, ")");
  product_context_ = text_.add("PRODUCT_CONTEXT('',", application_, ",'mechanical')");
  definition_context_ = text_.add("PRODUCT_DEFINITION_CONTEXT('part definition',", application_, ",'design')");
  length_unit_ = text_.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))");
  angle_unit_ = text_.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))");
  solid_angle_unit_ = text_.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())");
  uncertainty_ = text_.add("UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(", uncertainty_mm, "),", length_unit_,
                           ",'distance_accuracy_value','points nearer than this are one')");
}

// One a representation: the standard asks that the two sides of an instance have contexts of their own.
EntityRef AssemblyWriter::add_context() {
  return text_.add("(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((", uncertainty_,
                   "))GLOBAL_UNIT_ASSIGNED_CONTEXT((", length_unit_, ",", angle_unit_, ",", solid_angle_unit_,
                   "))REPRESENTATION_CONTEXT('','3D'))");
}

EntityRef AssemblyWriter::add_product(const std::string& name) {
  const EntityRef product =
      text_.add("PRODUCT(", Quoted{unique(product_ids_, name)}, ",", Quoted{name}, ",'',(", product_context_, "))");
  text_.add("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(", product, "))");
  const EntityRef formation = text_.add("PRODUCT_DEFINITION_FORMATION('','',", product, ")");
  return text_.add("PRODUCT_DEFINITION('design','',", formation, ",", definition_context_, ")");
}

EntityRef AssemblyWriter::style_of(const PartColour& colour) {
  const auto known = styles_.find(colour);
  if (known != styles_.end()) return known->second;
  const EntityRef rgb = text_.add("COLOUR_RGB('',", colour.red, ",", colour.green, ",", colour.blue, ")");
  const EntityRef fill_colour = text_.add("FILL_AREA_STYLE_COLOUR('',", rgb, ")");
  const EntityRef fill = text_.add("FILL_AREA_STYLE('',(", fill_colour, "))");
  const EntityRef area = text_.add("SURFACE_STYLE_FILL_AREA(", fill, ")");
  std::vector<EntityRef> sides = {area};
  if (colour.transparency > 0) {
    const EntityRef transparent = text_.add("SURFACE_STYLE_TRANSPARENT(", colour.transparency, ")");
    sides.push_back(
        text_.add("SURFACE_STYLE_RENDERING_WITH_PROPERTIES(.NORMAL_SHADING.,", rgb, ",(", transparent, "))"));
  }
  text_.start_entity();
  text_.append("SURFACE_SIDE_STYLE('',");
  append_list(text_, sides);
  text_.append(")");
  const EntityRef side = text_.end_entity();
  const EntityRef usage = text_.add("SURFACE_STYLE_USAGE(.BOTH.,", side, ")");
  return styles_[colour] = text_.add("PRESENTATION_STYLE_ASSIGNMENT((", usage, "))");
}

Part AssemblyWriter::add_part(const std::string& name, const std::vector<EntityRef>& solids, const PartColour& colour) {
  const EntityRef context = add_context();
  const EntityRef origin = add_frame(text_, {});
  std::vector<EntityRef> items = {origin};
  items.insert(items.end(), solids.begin(), solids.end());
  const EntityRef representation = add_representation(text_, "ADVANCED_BREP_SHAPE_REPRESENTATION", items, context);
  const EntityRef definition = add_product(name);
  const EntityRef shape = text_.add("PRODUCT_DEFINITION_SHAPE('','',", definition, ")");
  text_.add("SHAPE_DEFINITION_REPRESENTATION(", shape, ",", representation, ")");
  const EntityRef style = style_of(colour);
  std::vector<EntityRef> styled;
  for (const EntityRef solid : solids) {
    styled.push_back(text_.add("STYLED_ITEM('',(", style, "),", solid, ")"));
  }
  add_representation(text_, "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION", styled, context);
  return {definition, representation, origin};
}

void AssemblyWriter::add_assembly(const std::string& name, const std::vector<Instance>& instances) {
  const EntityRef context = add_context();
  std::vector<EntityRef> places = {add_frame(text_, {})};
  for (const Instance& instance : instances) places.push_back(add_frame(text_, instance.frame));
  const EntityRef representation = add_representation(text_, "SHAPE_REPRESENTATION", places, context);
  const EntityRef definition = add_product(name);
  const EntityRef shape = text_.add("PRODUCT_DEFINITION_SHAPE('','',", definition, ")");
  text_.add("SHAPE_DEFINITION_REPRESENTATION(", shape, ",", representation, ")");
  std::set<std::string> use_ids;
  for (std::size_t i = 0; i < instances.size(); ++i) {
    const Instance& instance = instances[i];
    // The name serves as identifier too: some readers show that where a name has no plain letters.
    const std::string id = unique(use_ids, instance.name);
    const EntityRef use = text_.add("NEXT_ASSEMBLY_USAGE_OCCURRENCE(", Quoted{id}, ",", Quoted{instance.name}, ",'',",
                                    definition, ",", instance.part.definition, ",$)");
    const EntityRef placed = text_.add("PRODUCT_DEFINITION_SHAPE('Placement','Placement of an item',", use, ")");
    const EntityRef move =
        text_.add("ITEM_DEFINED_TRANSFORMATION('','',", instance.part.origin, ",", places[i + 1], ")");
    const EntityRef relation =
        text_.add("(REPRESENTATION_RELATIONSHIP('','',", instance.part.representation, ",", representation,
                  ")REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(", move, ")SHAPE_REPRESENTATION_RELATIONSHIP())");
    text_.add("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(", relation, ",", placed, ")");
  }
}

}  // namespace halfhard
