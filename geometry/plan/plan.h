// The resolved job: everything that exporters, the viewer and the report need, as plain immutable numbers.
// Site frame (x right, y back, z up), mm. Parts are shared, so that an edit replaces only what it reaches.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "geometry/base/length_unit.h"
#include "geometry/plan/finding.h"
#include "geometry/plan/fixture.h"
#include "geometry/plan/rules.h"
#include "geometry/plan/run.h"

namespace halfhard {

struct Tolerance {
  double length_mm = 3;
  Angle angle = Angle::degrees(3);
  friend bool operator==(const Tolerance&, const Tolerance&) = default;
};

struct Clearance {
  std::string first, second;  // run and fixture, or two runs, or a run twice
  double distance_mm = 0;     // negative where they meet
  double required_mm = 0;
  double uncertainty_mm = 0;
  Vec3 at_first = Vec3::Zero(), at_second = Vec3::Zero();  // the two nearest points
};

struct Drilling {
  std::string run, fixture;
  Vec3 centre = Vec3::Zero();      // on the face where the run goes in
  Vec3 direction = Vec3::UnitX();  // unit, of travel
  double diameter_mm = 0, depth_mm = 0;
};

struct Clip {
  std::string run;
  double along_mm = 0;  // along the centre line from `from`
  Vec3 at = Vec3::Zero();
  Vec3 direction = Vec3::UnitX();
};

struct SiteCheck {
  std::string from_text, to_text;  // as a person reads them: "hot tap", "(300, 460, 350)"
  Vec3 from = Vec3::Zero(), to = Vec3::Zero();
  double measured_mm = 0, within_mm = 0, computed_mm = 0;
  std::string pointer;
  friend bool operator==(const SiteCheck&, const SiteCheck&) = default;
};

struct Bank {
  std::string of;
  int count = 0;
  Vec3 step = Vec3::Zero();
  bool equal_gaps = false;  // match "gaps"; else identical pieces
  std::vector<int> runs;    // indices into Plan::runs, first to last
  std::string pointer;
  friend bool operator==(const Bank&, const Bank&) = default;
};

// Stock to cut from; see Job.
struct Stock {
  std::vector<double> lengths_mm = {3000.0};
  double cutter_loss_mm = 0;
  friend bool operator==(const Stock&, const Stock&) = default;
};

// What stands in a sheet's title block; empty where the job does not say.
struct TitleBlock {
  std::string owner, identification, revision, date, created_by, approved_by;
  bool third_angle = false;
  friend bool operator==(const TitleBlock&, const TitleBlock&) = default;
};

struct Plan {
  std::string title, origin, surface;
  std::string stem;    // the job file's name without folder and ending: output folder's name
  std::string digest;  // of the job's text, hex; changes when the job does
  LengthUnit unit = LengthUnit::mm;
  Tolerance tolerance;
  double list_clearances_within_mm = 250;
  double drill_clearance_mm = 2;  // round a pipe in its hole, where neither pipe nor body says otherwise
  Rules rules;
  int sets = 1;
  Stock stock;
  TitleBlock title_block;

  std::vector<std::shared_ptr<const Run>> runs;
  std::vector<std::shared_ptr<const Fixture>> fixtures;
  std::vector<std::shared_ptr<const Connection>> connections;  // named ones
  std::vector<Bank> banks;
  std::vector<SiteCheck> site_checks;

  std::vector<Clearance> clearances;
  std::vector<Drilling> drillings;
  std::vector<Clip> clips;
  std::vector<Finding> findings;

  // The first failing finding that names this run, or nullptr: its papers say NOT TO BE MADE and why.
  // Findings about the whole job (where empty) count for every run.
  const Finding* failure_of(const Run& run) const;
  bool fails() const;
  // nullptr where no run has that name.
  const Run* run_named(const std::string& name) const;
};

}  // namespace halfhard
