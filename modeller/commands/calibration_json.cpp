#include "modeller/commands/calibration_json.h"

#include "exporters/report/json_writer.h"

namespace halfhard {

std::string calibration_json(const Calibration& made) {
  JsonWriter json;
  const auto put = [&](const char* key, const std::optional<Estimate>& estimate, double Estimate::*figure) {
    json.key(key);
    if (estimate) {
      json.value((*estimate).*figure);
    } else {
      json.null();
    }
  };
  json.begin_object().member("format", "halfhard-calibration/1").member("usable", made.usable);
  put("former_radius_mm", made.radius, &Estimate::mm);
  put("former_radius_within_mm", made.radius, &Estimate::within_mm);
  put("mark_offset_mm", made.mark_offset, &Estimate::mm);
  put("mark_offset_within_mm", made.mark_offset, &Estimate::within_mm);
  json.key("spring_back").begin_array();
  for (const SpringBackPair& pair : made.spring_back)
    json.begin_object().member("set", pair.set.degrees()).member("got", pair.got.degrees()).end_object();
  json.end_array().key("reasons").begin_array();
  for (const std::string& reason : made.reasons) json.value(std::string_view(reason));
  json.end_array().end_object();
  return json.take();
}

}  // namespace halfhard
