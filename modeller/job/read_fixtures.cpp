#include <array>

#include "geometry/curve/centreline.h"
#include "modeller/job/parts.h"

namespace halfhard {
namespace {

constexpr double kLeastSize_mm = 1e-6;  // thinner than rounding in the job's arithmetic is no body
constexpr std::array<std::string_view, 5> kBodies = {"box", "cylinder", "plane", "joist", "solid"};

class FixtureReader {
 public:
  FixtureReader(Reading& reading, const FilePlaces& places, std::size_t place, std::vector<SolidToRead>& solids)
      : reading_(reading), places_(places), place_(place), solids_(solids) {}

  Fixture read(JsonValue at) {
    Fixture fixture;
    fixture.pointer = at.pointer();
    Fields fields(reading_, at, keys_of(JobPart::fixture));
    if (!fields.ok()) return fixture;
    if (const JsonValue name = fields.needed("name")) fixture.name = reading_.name(name).value_or("");
    fields.length("keep_clear", fixture.keep_clear_mm, kLength0);
    fields.flag("may_drill", fixture.may_drill);
    fixture.drill_clearance_mm = read_drill_clearance(reading_, fields["drill_clearance"]);
    fields.service("service", fixture.service);
    read_body(fields, fixture);
    read_turns(fields["turn"], fixture);
    read_motion(fields, fixture);
    return fixture;
  }

 private:
  void read_body(Fields& fields, Fixture& fixture) {
    std::vector<JsonValue> bodies;
    for (const std::string_view kind : kBodies) {
      if (const JsonValue body = fields[kind]) bodies.push_back(body);
    }
    if (bodies.size() != 1) {
      reading_.problem(fields.group(), bodies.empty() ? "no body" : std::to_string(bodies.size()) + " bodies",
                       "one of " + names_in_quotes(kBodies));
    }
    for (const JsonValue body : bodies) {
      if (body.key() == "box") read_box(body, fixture);
      if (body.key() == "cylinder") read_cylinder(body, fixture);
      if (body.key() == "plane") read_plane(body, fixture);
      if (body.key() == "joist") read_joist(body, fixture);
      if (body.key() == "solid") read_solid(body, fixture);
    }
  }

  std::optional<Vec3> needed_point(Fields& fields, std::string_view key) {
    const JsonValue at = fields.needed(key);
    return at ? reading_.point(at) : std::nullopt;
  }

  // Two different points, or nothing and a problem.
  std::optional<std::array<Vec3, 2>> axis(Fields& fields, JsonValue at, const char* what) {
    const auto from = needed_point(fields, "from"), to = needed_point(fields, "to");
    if (!from || !to) return std::nullopt;
    if ((*to - *from).norm() < kLeastSize_mm) {
      reading_.problem(at, std::string(what) + " of no length", "two different points");
      return std::nullopt;
    }
    return {{*from, *to}};
  }

  void read_box(JsonValue at, Fixture& fixture) {
    fixture.kind = FixtureKind::box;
    Fields fields(reading_, at, keys_of(JobPart::box));
    const auto from = needed_point(fields, "from"), to = needed_point(fields, "to");
    if (!from || !to) return;
    const Vec3 size = (*to - *from).cwiseAbs();
    if (size.minCoeff() < kLeastSize_mm) {
      reading_.problem(at, "a box of no thickness", "two corners that differ in x, y and z");
      return;
    }
    fixture.body.shape = Box{(*from + *to) / 2, Mat3::Identity(), size / 2};
  }

  void read_cylinder(JsonValue at, Fixture& fixture) {
    fixture.kind = FixtureKind::cylinder;
    Fields fields(reading_, at, keys_of(JobPart::cylinder));
    double diameter = 0;
    fields.needed("diameter");
    fields.length("diameter", diameter, kLengthAbove0);
    if (const auto ends = axis(fields, at, "a cylinder")) {
      fixture.body.shape = Cylinder{(*ends)[0], (*ends)[1], diameter / 2};
    }
  }

  void read_plane(JsonValue at, Fixture& fixture) {
    fixture.kind = FixtureKind::plane;
    Fields fields(reading_, at, keys_of(JobPart::plane));
    const auto point = needed_point(fields, "at");
    const JsonValue facing_at = fields.needed("facing");
    const auto facing = facing_at ? reading_.direction(facing_at) : std::nullopt;
    if (point && facing) fixture.body.shape = HalfSpace{*point, *facing};
  }

  void read_joist(JsonValue at, Fixture& fixture) {
    fixture.kind = FixtureKind::joist;
    Fields fields(reading_, at, keys_of(JobPart::joist));
    Joist joist;
    fields.needed("breadth");
    fields.length("breadth", joist.breadth_mm, kLengthAbove0);
    fields.needed("depth");
    fields.length("depth", joist.depth_mm, kLengthAbove0);
    const auto ends = axis(fields, at, "a joist");
    if (!ends) return;
    joist.from = (*ends)[0];
    joist.to = (*ends)[1];
    const Vec3 along = (joist.to - joist.from).normalized();
    const Angle lean = angle_between(along, Vec3::UnitZ());
    const bool vertical = lean.degrees() <= kSameDirection_deg || lean.degrees() >= 180 - kSameDirection_deg;
    const Vec3 helper = vertical ? Vec3::UnitY() : Vec3::UnitZ();
    joist.depth_direction = (helper - helper.dot(along) * along).normalized();
    joist.breadth_direction = joist.depth_direction.cross(along);
    Box box;
    box.centre = (joist.from + joist.to) / 2;
    box.axes << along, joist.breadth_direction, joist.depth_direction;
    box.half = Vec3((joist.to - joist.from).norm(), joist.breadth_mm, joist.depth_mm) / 2;
    fixture.body.shape = box;
    fixture.joist = joist;
  }

  void read_solid(JsonValue at, Fixture& fixture) {
    fixture.kind = FixtureKind::solid;
    fixture.body.shape = std::shared_ptr<const TriangleBody>();
    Fields fields(reading_, at, keys_of(JobPart::solid));
    SolidToRead solid;
    solid.fixture = place_;
    if (const JsonValue origin = fields["at"]) solid.at = reading_.point(origin).value_or(Vec3::Zero());
    solid.file_at = fields.needed("file");
    if (!solid.file_at) return;
    if (const auto file = allowed_file(reading_, solid.file_at, places_)) {
      solid.file = *file;
      fixture.file = std::string(solid.file_at.text());
      solids_.push_back(std::move(solid));
    }
  }

  void read_turns(JsonValue at, Fixture& fixture) {
    if (!at) return;
    if (at.kind() != JsonKind::list) {
      read_turn(at, fixture);
      return;
    }
    for (JsonValue member = at.first(); member; member = member.next()) read_turn(member, fixture);
  }

  void read_turn(JsonValue at, Fixture& fixture) {
    const auto turn = about_and_by(at);
    if (!turn) return;
    fixture.body.shape = turned(fixture.body.shape, turn_about(turn->at, turn->about, turn->by));
    if (fixture.joist) {
      const Eigen::Affine3d motion = turn_about(turn->at, turn->about, turn->by);
      fixture.joist->from = motion * fixture.joist->from;
      fixture.joist->to = motion * fixture.joist->to;
      fixture.joist->depth_direction = motion.linear() * fixture.joist->depth_direction;
      fixture.joist->breadth_direction = motion.linear() * fixture.joist->breadth_direction;
    }
    if (!solids_.empty() && solids_.back().fixture == place_) {
      solids_.back().turns.push_back(turn_about(turn->at, turn->about, turn->by));
    }
  }

  std::optional<Swing> about_and_by(JsonValue at) {
    Fields fields(reading_, at, keys_of(JobPart::turn));
    const JsonValue about_at = fields.needed("about"), by_at = fields.needed("by"), point_at = fields["at"];
    const auto about = about_at ? reading_.direction(about_at) : std::nullopt;
    const auto by = by_at ? reading_.number(by_at, kAnyAngle) : std::nullopt;
    const auto point = point_at ? reading_.point(point_at) : std::optional<Vec3>(Vec3::Zero());
    if (!about || !by || !point) return std::nullopt;
    return Swing{*point, *about, Angle::degrees(*by)};
  }

  void read_motion(Fields& fields, Fixture& fixture) {
    const JsonValue slides = fields["slides"], swing = fields["swing"];
    if (slides && swing) reading_.problem_at_key(swing, "\"swing\" beside \"slides\"", "the one or the other");
    if (slides) {
      if (const auto shift = reading_.shift(slides, 1, 3)) fixture.body.motion = Slide{sum_of(*shift)};
    } else if (swing) {
      if (const auto door = about_and_by(swing)) {
        if (std::abs(door->by.degrees()) > 360) {
          reading_.problem(swing, "a swing of " + number_text(door->by.degrees()), "at most 360 degrees");
        }
        fixture.body.motion = *door;
      }
    }
  }

  Reading& reading_;
  const FilePlaces& places_;
  std::size_t place_;
  std::vector<SolidToRead>& solids_;
};

}  // namespace

void read_fixtures(Reading& reading, JsonValue at, const FilePlaces& places, Job& job,
                   std::vector<SolidToRead>& solids) {
  for (const JsonValue member : members_of_list(reading, at, "a list of fixtures")) {
    job.fixtures.push_back(FixtureReader(reading, places, job.fixtures.size(), solids).read(member));
  }
}

}  // namespace halfhard
