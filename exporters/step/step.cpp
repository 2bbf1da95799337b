#include "exporters/step/step.h"

#include <algorithm>
#include <optional>
#include <tuple>

#include "exporters/step/assembly.h"
#include "exporters/step/polyhedron_brep.h"
#include "exporters/step/tube_brep.h"
#include "geometry/bending/as_cut.h"
#include "geometry/plan/scene_extents.h"

namespace halfhard {
namespace {

// What a file says of when it was made where the job gives no date: the clock would change the bytes.
constexpr const char* kNoDate = "2000-01-01";

bool is_date(const std::string& text) {  // 2026-01-15
  if (text.size() != 10) return false;
  for (int i = 0; i < 10; ++i) {
    const bool dash = i == 4 || i == 7;
    if (dash ? text[i] != '-' : text[i] < '0' || text[i] > '9') return false;
  }
  return true;
}

std::string whole_file(const Plan& plan, const std::string& name, std::string entities) {
  const std::string date = is_date(plan.title_block.date) ? plan.title_block.date : kNoDate;
  std::string file = "ISO-10303-21;\nHEADER;\n";
  file += "FILE_DESCRIPTION((" + step_string(plan.title) + "),'2;1');\n";
  file += "FILE_NAME(" + step_string(name) + ",'" + date + "T00:00:00',(" + step_string(plan.title_block.created_by) +
          "),(" + step_string(plan.title_block.owner) + "),'halfhard','halfhard','');\n";
  file += "FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));\nENDSEC;\nDATA;\n";
  file += entities;
  file += "ENDSEC;\nEND-ISO-10303-21;\n";
  return file;
}

// Doubles are coarser far out; 1e-6 also covers straights that are too short to be faces of their own.
double uncertainty_mm(const Extents& extents) {
  const double farthest = std::max(extents.least.cwiseAbs().maxCoeff(), extents.most.cwiseAbs().maxCoeff());
  return std::max(1e-6, 4e-15 * farthest);
}

bool lagging_fits(const Run& run) {
  return run.line.bend_count() == 0 || run.outside_radius_mm() < run.line.radius_mm();
}

constexpr const char* kLaggingLeftOut = " (lagging left out: thicker than the bends let it be drawn)";

std::string status_of(const Plan& plan, const Run& run) {
  const Finding* failure = plan.failure_of(run);
  return failure ? " - NOT TO BE MADE: " + failure->message : "";
}

EntityRef add_tube(Part21Text& text, const Run& run) {
  const double outside = run.tube->outside_radius_mm();
  return add_tube_brep(text, line_as_cut(run), outside, outside - run.tube->wall_mm, run.name);
}

// Writes a body's solids, at rest, and says where its part stands.
struct BodyWriter {
  Part21Text& text;
  const std::string& name;
  const Extents& extents;
  Frame& frame;

  std::vector<EntityRef> operator()(const Box& box) const { return {add_box_brep(text, box, name)}; }
  std::vector<EntityRef> operator()(const Cylinder& cylinder) const {
    const CentreLine axis = CentreLine::through({cylinder.from, cylinder.to}, 0);
    return {add_tube_brep(text, axis, cylinder.radius, 0, name)};
  }
  std::vector<EntityRef> operator()(const HalfSpace& plane) const {
    return {add_box_brep(text, slab_of(plane, extents), name)};
  }
  std::vector<EntityRef> operator()(const std::shared_ptr<const TriangleBody>& body) const {
    if (const std::optional<Frame> known = frame_of(*body)) {
      const std::vector<EntityRef> solids = splice_solids(text, body->exact->step_data);
      if (!solids.empty()) {
        frame = *known;
        return solids;
      }
    }
    return add_triangle_breps(text, *body, name);
  }
};

class JobWriter {
 public:
  explicit JobWriter(const Plan& plan)
      : plan_(plan), extents_(scene_extents(plan)), assembly_(text_, uncertainty_mm(extents_)) {
    for (const auto& run : plan.runs) pieces_[kind_of(*run)].push_back(run.get());
  }

  std::string write() {
    for (const auto& run : plan_.runs) add_run(*run);
    for (const auto& fixture : plan_.fixtures) {
      Frame frame;
      const std::vector<EntityRef> solids =
          std::visit(BodyWriter{text_, fixture->name, extents_, frame}, fixture->body.shape);
      instances_.push_back(
          {assembly_.add_part(fixture->name, solids, fixture_colour(fixture->kind)), fixture->name, frame});
    }
    const std::string name = plan_.title.empty() ? plan_.stem : plan_.title;
    assembly_.add_assembly(name, instances_);
    return whole_file(plan_, name, text_.take());
  }

 private:
  // All that makes the shape and the looks of a run's parts.
  using Kind = std::tuple<int, double, double, double, double, double, Service>;
  struct Written {
    Part tube;
    std::optional<Part> lagging;
  };

  static Kind kind_of(const Run& run) {
    return {run.same_as,    run.tube->outside_diameter_mm, run.tube->wall_mm,
            run.lagging_mm, run.datum_insertion_mm(),      run.free_insertion_mm(),
            run.service};
  }

  // Runs of one kind; the first is the one that the others are slid from.
  using Pieces = std::vector<const Run*>;

  void add_run(const Run& run) {
    const Pieces& pieces = pieces_.at(kind_of(run));
    const auto [place, is_new] = written_.try_emplace(kind_of(run));
    if (is_new) place->second = add_parts(pieces);
    const Frame frame{run.slid_mm - pieces.front()->slid_mm, Mat3::Identity()};
    const bool lacks_lagging = run.lagging_mm > 0 && !place->second.lagging;
    const std::string remark = lacks_lagging ? kLaggingLeftOut : "";
    const std::string status = status_of(plan_, run);
    instances_.push_back({place->second.tube, run.name + remark + status, frame});
    if (place->second.lagging) {
      instances_.push_back({*place->second.lagging, run.name + " lagging" + status, frame});
    }
  }

  // A shape that several pieces share carries the name of the bank; each instance carries the piece's.
  Written add_parts(const Pieces& pieces) {
    const Run& run = *pieces.front();
    const std::string name = pieces.size() > 1 ? run.family : run.name;
    const std::string status = part_status(pieces);
    const bool lagged = run.lagging_mm > 0;
    Written written;
    written.tube = assembly_.add_part(name + (lagged && !lagging_fits(run) ? kLaggingLeftOut : "") + status,
                                      {add_tube(text_, run)}, tube_colour(run.service));
    if (lagged && lagging_fits(run)) {
      const EntityRef brep =
          add_tube_brep(text_, run.line, run.outside_radius_mm(), run.tube->outside_radius_mm(), name + " lagging");
      written.lagging = assembly_.add_part(name + " lagging" + status, {brep}, lagging_colour());
    }
    return written;
  }

  std::string part_status(const Pieces& pieces) const {
    if (pieces.size() == 1) return status_of(plan_, *pieces.front());
    for (const Run* piece : pieces) {
      const Finding* failure = plan_.failure_of(*piece);
      if (failure) return " - NOT TO BE MADE: " + piece->name + ": " + failure->message;
    }
    return "";
  }

  const Plan& plan_;
  Extents extents_;
  Part21Text text_;
  AssemblyWriter assembly_;
  std::map<Kind, Pieces> pieces_;
  std::map<Kind, Written> written_;
  std::vector<AssemblyWriter::Instance> instances_;
};

}  // namespace

std::string step_of_run(const Plan& plan, const Run& run) {
  Part21Text text;
  AssemblyWriter assembly(text, uncertainty_mm(extents_of(run)));
  const EntityRef brep = add_tube(text, run);
  const std::string name = run.name + status_of(plan, run);
  assembly.add_part(name, {brep}, tube_colour(run.service));
  return whole_file(plan, name, text.take());
}

std::string step_of_job(const Plan& plan) { return JobWriter(plan).write(); }

}  // namespace halfhard
