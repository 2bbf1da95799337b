#include "modeller/checks/bank_pieces.h"

#include <algorithm>
#include <cmath>

#include "geometry/base/tolerances.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

constexpr double kSameLength_mm = 1e-6;
constexpr double kSameAngle_deg = 1e-6;

// How far two pieces differ, 0 where they are the same piece.
struct Difference {
  double mm = 0, deg = 0;
  bool otherwise = false;  // number of bends, tube, hook, order
  bool any() const { return otherwise || mm > kSameLength_mm || deg > kSameAngle_deg; }
};

double turned_by(Angle a, Angle b) { return std::abs(std::remainder((a - b).degrees(), 360)); }

Difference difference(const Run& a, const Run& b) {
  Difference d;
  if (a.bends.size() != b.bends.size() || !(*a.tube == *b.tube)) return {0, 0, true};
  d.mm = std::max({std::abs(a.cut_length_mm - b.cut_length_mm), std::abs(a.blank_length_mm - b.blank_length_mm),
                   std::abs(a.straight_after_mm - b.straight_after_mm)});
  for (std::size_t i = 0; i < a.bends.size(); ++i) {
    const Bend &x = a.bends[i], &y = b.bends[i];
    d.mm = std::max({d.mm, std::abs(x.straight_before_mm - y.straight_before_mm), std::abs(x.mark_mm - y.mark_mm)});
    d.deg = std::max({d.deg, std::abs((x.angle - y.angle).degrees()), turned_by(x.rotation, y.rotation)});
    d.otherwise = d.otherwise || x.hook != y.hook || x.made != y.made;
  }
  return d;
}

}  // namespace

bool lies_flat(const Run& run) {
  return std::all_of(run.bends.begin(), run.bends.end(), [](const Bend& bend) {
    return std::abs(std::remainder(bend.rotation.degrees(), 180)) < kSameDirection_deg;
  });
}

// What a bank of pieces and their mirror images comes to at the bench.
Finding hands_of(const Plan& plan, const Bank& bank) {
  const Run &first = *plan.runs[bank.runs[0]], &second = *plan.runs[bank.runs[1]];
  const bool flat = lies_flat(first);
  std::string text = "The pieces of bank " + in_quotes(bank.of);
  text += flat ? " are one and the same piece, every second one turned over as it is fitted: bend them all alike."
               : " are of two hands: " + in_quotes(first.name) + " and every second one after it are one hand, " +
                     in_quotes(second.name) + " and every second one after it the other: bend each by its own table.";
  return say_of_job(flat ? "bank-turned-over" : "bank-opposite-hands", Severity::note, text, {}, bank.pointer);
}

void check_bank_pieces(const PlanContext& context, std::vector<Finding>& findings) {
  const auto& [plan, job] = context;
  for (const Bank& bank : plan.banks) {
    if (bank.runs.size() < 2) continue;
    const auto written = std::find_if(job.banks.begin(), job.banks.end(),
                                      [&](const JobBank& each) { return each.pointer == bank.pointer; });
    if (written != job.banks.end() && written->mirror) {
      findings.push_back(hands_of(plan, bank));
      continue;
    }
    const Run& first = *plan.runs[bank.runs.front()];
    bool differ = false;
    for (const int index : bank.runs) {
      const Run& piece = *plan.runs[index];
      const Difference d = difference(first, piece);
      differ = differ || d.any();
      if (bank.equal_gaps || !d.any()) continue;
      const bool by_angle = d.mm <= kSameLength_mm && d.deg > kSameAngle_deg;
      findings.push_back(
          say("bank-pieces-differ", Severity::fail, piece,
              in_quotes(piece.name) + " should be the same piece as " + in_quotes(first.name) + " and is not.",
              {by_angle ? d.deg : d.mm, by_angle ? kSameAngle_deg : kSameLength_mm, by_angle ? "deg" : "mm",
               "match \"pieces\" of the bank"}));
    }
    if (bank.equal_gaps && differ) {
      findings.push_back(say_of_job("bank-pieces-not-alike", Severity::note,
                                    "The pieces of bank " + in_quotes(bank.of) +
                                        " keep one gap and are not alike: mark and bend each by its own table.",
                                    {}, bank.pointer));
    }
  }
}

}  // namespace halfhard
