#include "geometry/flow/run_flow.h"

namespace halfhard {
RunFlow run_flow(const Run& run, double flow_l_per_s, const Water& water, const Connector& connector) {
  RunFlow result;
  result.bore_mm = run.tube->inside_diameter_mm();
  result.velocity_m_per_s = velocity_m_per_s(flow_l_per_s, result.bore_mm);
  result.reynolds = reynolds_number(result.velocity_m_per_s, result.bore_mm, water);
  if (result.reynolds > 0)
    result.friction_factor = friction_factor(result.reynolds, kDrawnTubeRoughness_mm / result.bore_mm);
  const auto along = [&](double length_mm) {
    return friction_loss_kpa(flow_l_per_s, result.bore_mm, length_mm, water);
  };
  const auto turn = [&](double coefficient) {
    return local_loss_kpa(coefficient, flow_l_per_s, result.bore_mm, water);
  };
  double legs_mm = 0;
  for (int leg = 0; leg < run.line.leg_count(); ++leg) legs_mm += run.line.leg_length_mm(leg);
  result.bent.friction_kpa = along(run.line.length_mm());
  result.with_elbows.friction_kpa = along(legs_mm);
  for (const Bend& bend : run.bends) {
    result.bent.turns_kpa += turn(bend_loss_coefficient(bend.radius_mm / result.bore_mm, bend.angle));
    result.with_elbows.turns_kpa += turn(kElbowLoss * bend.angle.degrees() / 90);
  }
  const double apart_mm = (run.line.points().back() - run.line.points().front()).norm();
  result.connector.friction_kpa =
      friction_loss_kpa(flow_l_per_s, connector.bore_mm, apart_mm, water, connector.roughness_mm);
  return result;
}

}  // namespace halfhard
