// Parts, their instances and how they look, around the solids of a STEP file. Units mm and radians.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "exporters/step/colours.h"
#include "exporters/step/part21.h"
#include "exporters/step/splice.h"

namespace halfhard {

// A part that has been written.
struct Part {
  EntityRef definition;      // PRODUCT_DEFINITION
  EntityRef representation;  // its shape
  EntityRef origin;          // placement at the part's own origin
};

class AssemblyWriter {
 public:
  // `uncertainty_mm`: points nearer than this are one.
  AssemblyWriter(Part21Text& text, double uncertainty_mm);

  // A part of these solids. Names need not be unique.
  Part add_part(const std::string& name, const std::vector<EntityRef>& solids, const PartColour& colour);

  struct Instance {
    Part part;
    std::string name;
    Frame frame;
  };
  // The one part that holds all others.
  void add_assembly(const std::string& name, const std::vector<Instance>& instances);

 private:
  EntityRef add_context();
  EntityRef add_product(const std::string& name);
  EntityRef style_of(const PartColour& colour);

  Part21Text& text_;
  EntityRef application_, product_context_, definition_context_;
  EntityRef length_unit_, angle_unit_, solid_angle_unit_, uncertainty_;
  std::map<PartColour, EntityRef> styles_;
  std::set<std::string> product_ids_;
};

}  // namespace halfhard
