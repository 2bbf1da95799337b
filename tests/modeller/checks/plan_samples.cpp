#include "tests/modeller/checks/samples.h"

namespace halfhard {
namespace {

Fixture fixture_named(std::string name, Service service = Service::none) {
  Fixture fixture;
  fixture.name = std::move(name);
  fixture.service = service;
  return fixture;
}

Checked beside(const Run& run, Fixture fixture, double distance_mm, double required_mm, double uncertainty_mm = 0) {
  Checked made = checked(run);
  Clearance pair;
  pair.first = run.name;
  pair.second = fixture.name;
  pair.distance_mm = distance_mm;
  pair.required_mm = required_mm;
  pair.uncertainty_mm = uncertainty_mm;
  made.plan.fixtures.push_back(std::make_shared<Fixture>(std::move(fixture)));
  made.plan.clearances.push_back(pair);
  return made;
}

Checked taped(double measured_mm, double within_mm) {
  Checked made = checked(*good_offset());
  SiteCheck check{"(0, 0, 0)", "'hot tap'", Vec3::Zero(), Vec3(100, 0, 0), measured_mm, within_mm, 100, ""};
  made.plan.site_checks.push_back(check);
  return made;
}

Checked two_services(Service first, Service second, double distance_mm, double lagging_mm = 0,
                     bool in_the_floor = true) {
  auto a = with_service(first, support::offset_points(300, 70, Angle::degrees(45), 300));
  auto b = with_service(second, support::offset_points(300, 70, Angle::degrees(45), 300));
  b->name = "other tail";
  a->lagging_mm = b->lagging_mm = lagging_mm;
  Checked made = checked({a, b});
  Clearance pair;
  pair.first = a->name;
  pair.second = b->name;
  pair.distance_mm = distance_mm;
  made.plan.clearances.push_back(pair);
  Fixture joist = fixture_named("joist");
  joist.kind = FixtureKind::joist;
  joist.joist = Joist{{-1500, 0, 0}, {1500, 0, 0}, Vec3::UnitZ(), Vec3::UnitY(), 50, 150};
  if (in_the_floor) made.plan.fixtures.push_back(std::make_shared<Fixture>(joist));
  return made;
}

Checked gas_run_and(Service service, double list_within_mm) {
  Checked made =
      beside(*with_service(Service::gas, support::single_bend_points()), fixture_named("meter", service), 200, 0);
  made.plan.list_clearances_within_mm = list_within_mm;
  return made;
}

// A joist of 3 m span along y and 150 by 50, as published: Approved Document A notch 210-750, 18.75 deep; hole
// 750-1200, 37.5; NHBC 6.4.18 notch 300-600, 22.5.
Checked drilled_joist(double along_mm, double off_centre_mm, double diameter_mm, double depth_mm = 150) {
  Checked made = checked(*support::run_through("rail", {{-200, along_mm, 0}, {200, along_mm, 0}}, [] {
    support::RunOptions options;
    options.service = Service::none;
    options.datum_insertion_mm = 0;
    return options;
  }()));
  Fixture fixture = fixture_named("joist");
  fixture.kind = FixtureKind::joist;
  fixture.may_drill = true;
  fixture.joist = Joist{{0, 0, 0}, {0, 3000, 0}, Vec3::UnitZ(), Vec3::UnitX(), 50, depth_mm};
  made.plan.fixtures.push_back(std::make_shared<Fixture>(fixture));
  made.plan.drillings.push_back({"rail", "joist", {-25, along_mm, off_centre_mm}, Vec3::UnitX(), diameter_mm, 50});
  return made;
}

// `depth` below the top edge by a hole of 20.
Checked notched_joist(double along_mm, double deep_mm) { return drilled_joist(along_mm, 75 + 10 - deep_mm, 20); }

Checked bank_of(bool equal_gaps, double longer_mm) {
  auto a = good_offset();
  a->name = "tail 1";
  auto b = support::run_through("tail 2", support::offset_points(300 + longer_mm, 70, Angle::degrees(45), 300));
  b->service = Service::none;
  Checked made = checked({a, b});
  Bank bank;
  bank.of = "tail";
  bank.count = 2;
  bank.equal_gaps = equal_gaps;
  bank.runs = {0, 1};
  made.plan.banks.push_back(bank);
  return made;
}

// The second piece the mirror image of the first, by a bank of the job that says so or not.
Checked mirrored_bank(bool flat, bool says_so) {
  Checked made = bank_of(false, 0);
  if (!flat) {
    for (const double side : {1.0, -1.0}) {
      auto piece = support::run_through(side > 0 ? "tail 1" : "tail 2",
                                        {{0, 0, 0}, {0, 0, 300}, {side * 300, 0, 300}, {side * 300, 300, 300}});
      piece->service = Service::none;
      made.plan.runs[side > 0 ? 0 : 1] = piece;
    }
  }
  made.plan.banks[0].pointer = "/banks/0";
  JobBank bank;
  bank.of = "tail";
  bank.count = 2;
  bank.mirror = says_so;
  bank.pointer = "/banks/0";
  made.job.banks = {bank};
  return made;
}

Checked with_bender(const std::function<void(Bender&)>& change) {
  support::RunOptions options;
  change(options.bender);
  return checked(*good_offset(options));
}

Checked good() { return checked(*good_offset()); }

// Two boards 400 apart that a pipe runs through along y, from a leg of `lead` across at each end.
Checked through_two_boards(double first_lead_mm, double wall_beyond_mm = 0) {
  std::vector<Vec3> points = {{0, 0, 0}, {0, 800, 0}, {300, 800, 0}};
  if (first_lead_mm > 0) points.insert(points.begin(), Vec3(first_lead_mm, 0, 0));
  support::RunOptions options;
  options.service = Service::none;
  options.datum_insertion_mm = 0;
  Checked made = checked(*support::run_through("rail", points, options));
  for (const double at : {200.0, 600.0}) {
    Fixture board = fixture_named(at < 400 ? "near board" : "far board");
    board.may_drill = true;
    board.body.shape = Box{{0, at, 0}, Mat3::Identity(), {200, 25, 200}};
    made.plan.drillings.push_back({"rail", board.name, {0, at - 25, 0}, Vec3::UnitY(), 19, 50});
    made.plan.fixtures.push_back(std::make_shared<Fixture>(board));
  }
  if (wall_beyond_mm > 0) {
    Fixture wall = fixture_named("end wall");
    wall.kind = FixtureKind::plane;
    wall.body.shape = HalfSpace{{0, 800 + wall_beyond_mm, 0}, -Vec3::UnitY()};
    made.plan.fixtures.push_back(std::make_shared<Fixture>(wall));
  }
  return made;
}

// One board of this thickness with bends on both sides of it.
Checked through_one_board(double thick_mm) {
  support::RunOptions options;
  options.service = Service::none;
  options.datum_insertion_mm = 0;
  Checked made = checked(*support::run_through("rail", {{300, 0, 0}, {0, 0, 0}, {0, 500, 0}, {300, 500, 0}}, options));
  Fixture board = fixture_named("board");
  board.may_drill = true;
  board.body.shape = Box{{0, 250, 0}, Mat3::Identity(), {200, thick_mm / 2, 200}};
  made.plan.drillings.push_back({"rail", "board", {0, 250 - thick_mm / 2, 0}, Vec3::UnitY(), 19, thick_mm});
  made.plan.fixtures.push_back(std::make_shared<Fixture>(board));
  return made;
}

}  // namespace

std::vector<CheckSample> plan_samples() {
  const auto beside_panel = [](double distance_mm, double uncertainty_mm) {
    return [=] { return beside(*good_offset(), fixture_named("panel"), distance_mm, 10, uncertainty_mm); };
  };
  const auto beside_meter = [](double distance_mm) {
    return [=] {
      return beside(*with_service(Service::gas, support::single_bend_points()),
                    fixture_named("meter", Service::electric), distance_mm, 0);
    };
  };
  const auto beside_cable = [](double distance_mm) {
    return [=] {
      Fixture cable = fixture_named("cable", Service::electric);
      cable.kind = FixtureKind::cylinder;
      return beside(*with_service(Service::gas, support::single_bend_points()), cable, distance_mm, 0);
    };
  };
  const auto hole = [](double along, double off, double across, double depth = 150) {
    return [=] { return drilled_joist(along, off, across, depth); };
  };
  const auto notch = [](double along, double deep) { return [=] { return notched_joist(along, deep); }; };
  const std::vector<std::string> joist = {"joist-rules", "drilling"};
  return {
      {"site-check", Severity::fail, [] { return taped(105.01, 5); }, [] { return taped(105, 5); }},
      {"site-check", Severity::fail, [] { return taped(99.49, 0); }, [] { return taped(99.5, 0); }},
      {"clearance", Severity::fail, beside_panel(9.9989, 0), beside_panel(9.9991, 0)},
      {"clearance-uncertain", Severity::warn, beside_panel(10.019, 0.02), beside_panel(10.021, 0.02)},
      {"gas-electric-separation", Severity::fail, beside_meter(149.99), beside_meter(150), {"registered-person"}},
      {"gas-electric-separation", Severity::fail, beside_cable(24.99), beside_cable(25), {"registered-person"}},
      {"separation-not-seen",
       Severity::warn,
       [] { return gas_run_and(Service::electric, 149); },
       [] { return gas_run_and(Service::electric, 150); },
       {"registered-person"}},
      {"hot-cold-separation", Severity::warn, [] { return two_services(Service::hot, Service::cold, 299.9); },
       [] { return two_services(Service::hot, Service::cold, 300); }},
      {"hot-cold-separation", Severity::warn, [] { return two_services(Service::hot, Service::cold, 165); },
       [] { return two_services(Service::hot, Service::cold, 165, 0, false); }},  // in a room it is no floor void
      {"hot-cold-separation", Severity::note,
       [] { return two_services(Service::cold, Service::heating_flow, 299.9, 13); },
       [] { return two_services(Service::cold, Service::cold, 50, 13); }},
      {"joist-hole", Severity::fail, hole(749, 0, 30), hole(751, 0, 30), joist},
      {"joist-hole", Severity::fail, hole(1201, 0, 30), hole(1800, 0, 30), joist},
      {"joist-hole", Severity::fail, hole(900, 0, 37.6), hole(900, 0, 37.5), joist},
      {"joist-hole", Severity::fail, hole(900, 3.1, 30), hole(900, -3, 30), joist},
      {"joist-hole", Severity::fail, hole(900, 0, 20, 100), hole(900, 0, 20, 101), joist},
      {"joist-notch", Severity::warn, notch(250, 18), notch(400, 18), joist},      // outside NHBC's zone only
      {"joist-notch", Severity::warn, notch(400, 18.8), notch(400, 18.7), joist},  // too deep for A, not for NHBC
      {"joist-notch", Severity::fail, notch(400, 22.6), notch(400, 18.7), joist},  // too deep for both
      {"joist-rules", Severity::note, hole(900, 0, 30), good, {"drilling"}},
      {"drilling", Severity::note, hole(900, 0, 30), good, {"joist-rules"}},
      {"cannot-be-threaded",
       Severity::warn,
       [] { return through_two_boards(300); },
       [] { return through_two_boards(0); },
       {"drilling"}},
      // Straight at one end, 625 of it from beyond the far board: its other leg has to be taken 632.5 back.
      {"cannot-be-threaded",
       Severity::warn,
       [] { return through_two_boards(0, 630); },
       [] { return through_two_boards(0, 635); },
       {"drilling"}},
      // R 55 through 18 mm of board needs 15.9; through 50 mm 22.1 where the hole is 19.
      {"cannot-be-threaded",
       Severity::warn,
       [] { return through_one_board(50); },
       [] { return through_one_board(18); },
       {"drilling"}},
      {"cannot-be-threaded",
       Severity::note,
       [] { return through_one_board(18); },
       [] { return through_two_boards(0); },
       {"drilling"}},
      {"bank-pieces-differ", Severity::fail, [] { return bank_of(false, 2e-6); }, [] { return bank_of(false, 1e-7); }},
      {"bank-turned-over", Severity::note, [] { return mirrored_bank(true, true); },
       [] { return mirrored_bank(true, false); }},
      {"bank-opposite-hands",
       Severity::note,
       [] { return mirrored_bank(false, true); },
       [] { return mirrored_bank(true, true); },
       {"meets-bench"}},
      {"bank-pieces-not-alike", Severity::note, [] { return bank_of(true, 5); }, [] { return bank_of(true, 0); }},
      {"radius-not-measured", Severity::warn, [] { return with_bender([](Bender& b) { b.radius_measured = false; }); },
       good},
      {"mark-offset-not-measured", Severity::warn,
       [] { return with_bender([](Bender& b) { b.mark_offset_mm.reset(); }); }, good},
      {"spring-back-not-measured", Severity::warn, [] { return with_bender([](Bender& b) { b.spring_back.clear(); }); },
       good},
      {"calibrated-with-another-tube", Severity::warn,
       [] { return with_bender([](Bender& b) { b.calibrated_with = "22 mm"; }); }, good},
      {"bender-limit", Severity::note, [] { return with_bender([](Bender& b) { b.usual_end_mm.reset(); }); }, good},
  };
}

}  // namespace halfhard
