// What a bent run costs the water that it carries, beside the same run with elbows and beside a flexible connector.
#pragma once

#include "geometry/flow/water.h"
#include "geometry/plan/run.h"

namespace halfhard {

struct FlowLoss {
  double friction_kpa = 0, turns_kpa = 0;  // along the tube; in bends or elbows
  double total_kpa() const { return friction_kpa + turns_kpa; }
};

struct RunFlow {
  double bore_mm = 0, velocity_m_per_s = 0, reynolds = 0, friction_factor = 0;
  FlowLoss bent;         // as planned, fitting face to fitting face
  FlowLoss with_elbows;  // corner to corner, an elbow of 90 (or two of 45 and so on, by the angle) at each
  FlowLoss connector;    // a flexible connector as long as the ends are apart
};

// A flexible connector: what its bore and inside are like. Common practice, no source.
struct Connector {
  double bore_mm = 8, roughness_mm = 0.01;
};

// Requires flow >= 0.
RunFlow run_flow(const Run& run, double flow_l_per_s, const Water& water, const Connector& connector = {});

}  // namespace halfhard
