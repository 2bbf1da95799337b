#include "exporters/step/tube_brep.h"

#include <algorithm>
#include <optional>

#include "exporters/step/polyhedron_brep.h"
#include "geometry/base/require.h"
#include "geometry/curve/tube_skin.h"

namespace halfhard {
namespace {

// What both skins (outside and bore) share: a placement a ring and one a bend.
struct Placements {
  std::vector<EntityRef> rings;   // axis along travel, reference to the seam before
  std::vector<EntityRef> pieces;  // of the piece's surface
  std::vector<EntityRef> travel;  // direction of a straight; unset for a bend
};

Placements add_placements(Part21Text& text, const TubeSkin& skin) {
  Placements placements;
  for (const SkinRing& ring : skin.rings) {
    placements.rings.push_back(add_placement(text, ring.centre, ring.travel, ring.seam_before));
  }
  for (std::size_t i = 0; i < skin.pieces.size(); ++i) {
    const SkinPiece& piece = skin.pieces[i];
    if (const auto* arc = std::get_if<Arc>(&piece.shape)) {
      placements.pieces.push_back(add_placement(text, arc->centre, arc->axis(), arc->outwards));
      placements.travel.push_back({});
      continue;
    }
    const SkinRing& ring = skin.rings[i];
    placements.pieces.push_back(ring.split_rad == 0 ? placements.rings[i]
                                                    : add_placement(text, ring.centre, ring.travel, ring.seam_after));
    placements.travel.push_back(add_direction(text, ring.travel));
  }
  return placements;
}

// As in the solid builder: edges by the right hand about travel, from the seam before.
struct RingEdges {
  EntityRef at_before, at_after;  // vertices
  std::vector<EntityRef> edges;
};

EntityRef add_vertex(Part21Text& text, const Vec3& point) {
  const EntityRef at = add_point(text, point);
  return text.add("VERTEX_POINT('',", at, ")");
}

EntityRef add_edge(Part21Text& text, EntityRef from, EntityRef to, EntityRef curve) {
  return text.add("EDGE_CURVE('',", from, ",", to, ",", curve, ",.T.)");
}

EntityRef add_use(Part21Text& text, EntityRef edge, bool forward) {
  return text.add("ORIENTED_EDGE('',*,*,", edge, forward ? ",.T.)" : ",.F.)");
}

EntityRef add_loop(Part21Text& text, const std::vector<EntityRef>& uses) {
  text.start_entity();
  text.append("EDGE_LOOP('',(");
  for (std::size_t i = 0; i < uses.size(); ++i) {
    if (i > 0) text.append(",");
    text.append(uses[i]);
  }
  text.append("))");
  return text.end_entity();
}

class SkinWriter {
 public:
  SkinWriter(Part21Text& text, const TubeSkin& skin, const Placements& placements, double radius_mm, bool bore)
      : text_(text), skin_(skin), placements_(placements), radius_(radius_mm), bore_(bore) {
    for (std::size_t i = 0; i < skin.rings.size(); ++i) rings_.push_back(add_ring(i));
    for (std::size_t i = 0; i < skin.pieces.size(); ++i) faces_.push_back(add_face(i));
  }

  const std::vector<EntityRef>& faces() const { return faces_; }

  // The loop of the flat end; `forward` about travel.
  EntityRef add_end_loop(bool at_start, bool forward) {
    std::vector<EntityRef> edges = (at_start ? rings_.front() : rings_.back()).edges;
    if (!forward) std::reverse(edges.begin(), edges.end());
    std::vector<EntityRef> uses;
    for (const EntityRef edge : edges) uses.push_back(add_use(text_, edge, forward));
    return add_loop(text_, uses);
  }

 private:
  RingEdges add_ring(std::size_t i) {
    const SkinRing& ring = skin_.rings[i];
    RingEdges result;
    const EntityRef circle = text_.add("CIRCLE('',", placements_.rings[i], ",", radius_, ")");
    result.at_before = result.at_after = add_vertex(text_, ring.centre + radius_ * ring.seam_before);
    if (ring.split_rad == 0) {
      result.edges.push_back(add_edge(text_, result.at_before, result.at_before, circle));
      return result;
    }
    result.at_after = add_vertex(text_, ring.centre + radius_ * ring.seam_after);
    result.edges.push_back(add_edge(text_, result.at_before, result.at_after, circle));
    result.edges.push_back(add_edge(text_, result.at_after, result.at_before, circle));
    return result;
  }

  EntityRef add_seam(std::size_t i) {
    const EntityRef from = rings_[i].at_after;
    const EntityRef to = rings_[i + 1].at_before;
    if (const auto* arc = std::get_if<Arc>(&skin_.pieces[i].shape)) {
      const EntityRef circle = text_.add("CIRCLE('',", placements_.pieces[i], ",", arc->radius + radius_, ")");
      return add_edge(text_, from, to, circle);
    }
    const EntityRef at = add_point(text_, skin_.rings[i].centre + radius_ * skin_.pieces[i].seam_at_start);
    const EntityRef vector = text_.add("VECTOR('',", placements_.travel[i], ",1.)");
    const EntityRef line = text_.add("LINE('',", at, ",", vector, ")");
    return add_edge(text_, from, to, line);
  }

  EntityRef add_face(std::size_t i) {
    const auto* arc = std::get_if<Arc>(&skin_.pieces[i].shape);
    const EntityRef surface =
        arc ? text_.add("TOROIDAL_SURFACE('',", placements_.pieces[i], ",", arc->radius, ",", radius_, ")")
            : text_.add("CYLINDRICAL_SURFACE('',", placements_.pieces[i], ",", radius_, ")");
    const EntityRef seam = add_seam(i);
    // Once round the surface's own normal: the start ring from the own seam, the seam, the end ring back, the seam
    // back.
    struct Use {
      EntityRef edge;
      bool forward;
    };
    std::vector<Use> uses;
    const auto& start = rings_[i].edges;
    const auto& end = rings_[i + 1].edges;
    for (auto edge = start.rbegin(); edge != start.rend(); ++edge) uses.push_back({*edge, true});
    uses.push_back({seam, true});
    for (auto edge = end.rbegin(); edge != end.rend(); ++edge) uses.push_back({*edge, false});
    uses.push_back({seam, false});
    if (bore_) {  // the material lies outside: the face looks inwards, and its loop runs the other way
      std::reverse(uses.begin(), uses.end());
      for (Use& use : uses) use.forward = !use.forward;
    }
    std::vector<EntityRef> written;
    for (const Use& use : uses) written.push_back(add_use(text_, use.edge, use.forward));
    const EntityRef loop = add_loop(text_, written);
    const EntityRef bound = text_.add("FACE_OUTER_BOUND('',", loop, ",.T.)");
    return text_.add("ADVANCED_FACE('',(", bound, "),", surface, bore_ ? ",.F.)" : ",.T.)");
  }

  Part21Text& text_;
  const TubeSkin& skin_;
  const Placements& placements_;
  double radius_;
  bool bore_;
  std::vector<RingEdges> rings_;
  std::vector<EntityRef> faces_;
};

// The plane's own normal is along travel; at the start the end looks the other way.
EntityRef add_flat_end(Part21Text& text, bool at_start, EntityRef placement, SkinWriter& outside, SkinWriter* bore) {
  const EntityRef plane = text.add("PLANE('',", placement, ")");
  const EntityRef outline = outside.add_end_loop(at_start, !at_start);
  const EntityRef outer = text.add("FACE_OUTER_BOUND('',", outline, ",.T.)");
  const char* sense = at_start ? ",.F.)" : ",.T.)";
  if (!bore) return text.add("ADVANCED_FACE('',(", outer, "),", plane, sense);
  const EntityRef hole = bore->add_end_loop(at_start, at_start);
  const EntityRef inner = text.add("FACE_BOUND('',", hole, ",.T.)");
  return text.add("ADVANCED_FACE('',(", outer, ",", inner, "),", plane, sense);
}

}  // namespace

EntityRef add_tube_brep(Part21Text& text, const CentreLine& line, double outer_radius_mm, double inner_radius_mm,
                        std::string_view name) {
  HALFHARD_REQUIRE(inner_radius_mm >= 0 && inner_radius_mm < outer_radius_mm);
  HALFHARD_REQUIRE(line.bend_count() == 0 || outer_radius_mm < line.radius_mm());
  const TubeSkin skin = tube_skin(line);
  const Placements placements = add_placements(text, skin);
  SkinWriter outside(text, skin, placements, outer_radius_mm, false);
  std::vector<EntityRef> faces = outside.faces();
  std::optional<SkinWriter> bore;
  if (inner_radius_mm > 0) {
    bore.emplace(text, skin, placements, inner_radius_mm, true);
    faces.insert(faces.end(), bore->faces().begin(), bore->faces().end());
  }
  SkinWriter* bore_or_none = bore ? &*bore : nullptr;
  faces.push_back(add_flat_end(text, true, placements.rings.front(), outside, bore_or_none));
  faces.push_back(add_flat_end(text, false, placements.rings.back(), outside, bore_or_none));
  return add_closed_solid(text, faces, name);
}

}  // namespace halfhard
