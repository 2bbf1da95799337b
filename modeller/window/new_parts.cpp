#include "modeller/window/new_parts.h"

#include <cmath>

#include "geometry/words/shown.h"
#include "modeller/job/json_patch.h"
#include "modeller/job/problem.h"

namespace halfhard {
namespace {

using Place = std::array<double, 3>;

std::string tidy(double value) { return number_text(std::round(value * 1000) / 1000); }

std::string place_json(const Place& at) { return "[" + tidy(at[0]) + ", " + tidy(at[1]) + ", " + tidy(at[2]) + "]"; }

int main_axis(const Place& direction) {
  int best = 0;
  for (int axis = 1; axis < 3; ++axis)
    if (std::abs(direction[axis]) > std::abs(direction[best])) best = axis;
  return best;
}

// Legs that were joined where they run on the same axis; a leg that came to nothing is left out.
class Legs {
 public:
  void go(int axis, double by) {
    if (std::abs(by) < 1e-6) return;
    if (axis == axis_) {
      by_ += by;
      return;
    }
    flush();
    axis_ = axis;
    by_ = by;
  }
  std::string json(bool rest) {
    if (rest && axis_ >= 0) {
      add("{ \"go\": \"" + site_word(axis_, by_) + "\", \"by\": \"rest\" }");
      axis_ = -1;
    }
    flush();
    return "[\n        " + text_ + "\n      ]";
  }

 private:
  void add(const std::string& leg) { text_ += (text_.empty() ? "" : ",\n        ") + leg; }
  void flush() {
    if (axis_ >= 0 && std::abs(by_) > 1e-6)
      add("{ \"go\": \"" + site_word(axis_, by_) + "\", \"by\": " + tidy(std::abs(by_)) + " }");
    axis_ = -1;
    by_ = 0;
  }
  std::string text_;
  int axis_ = -1;
  double by_ = 0;
};

}  // namespace

std::string legs_json(const NewPipe& pipe) {
  const int first = main_axis(pipe.from_towards), last = main_axis(pipe.to_towards);
  const double out = std::copysign(pipe.first_leg, pipe.from_towards[first]);
  const double in = std::copysign(pipe.first_leg, pipe.to_towards[last]);
  Place here = pipe.from_at, there = pipe.to_at;
  Legs legs;
  if (first == last && out * in < 0 && (there[first] - here[first]) * out > 0) {
    // The fittings face each other: across in the middle.
    const double half = (there[first] - here[first]) / 2;
    legs.go(first, half);
    for (int axis = 0; axis < 3; ++axis)
      if (axis != first) legs.go(axis, there[axis] - here[axis]);
    legs.go(first, half);
  } else {
    here[first] += out;
    there[last] += in;
    legs.go(first, out);
    for (int axis = 0; axis < 3; ++axis)
      if (axis != first && axis != last) legs.go(axis, there[axis] - here[axis]);
    if (first != last) legs.go(last == first ? 0 : first, there[first] - here[first]);
    legs.go(last, there[last] - here[last]);
    legs.go(last, -in);
  }
  return legs.json(true);
}

std::string pipe_json(const NewPipe& pipe) {
  return "{\n      \"name\": " + text_json(pipe.name) + ", \"tube\": " + text_json(pipe.tube) +
         ", \"bender\": " + text_json(pipe.bender) + ",\n      \"from\": " + text_json(pipe.from) +
         ", \"to\": " + text_json(pipe.to) + "\n    }";
}

std::string bank_json(const std::string& of, int count, const std::string& word, const std::string& step) {
  return "{ \"of\": " + text_json(of) + ", \"count\": " + std::to_string(count) + ", \"step\": { " + text_json(word) +
         ": " + number_json(step) + " } }";
}

std::string fixture_json(NewFixture kind, const std::string& name, const Place& about, const std::string& file,
                         LengthUnit unit) {
  const bool inch = unit == LengthUnit::inch;
  // Round figures of either unit, about the same size.
  const double hand = inch ? 4 : 100, span = inch ? 20 : 500;
  const auto shifted = [&](double x, double y, double z) {
    return place_json({about[0] + x, about[1] + y, about[2] + z});
  };
  std::string body;
  switch (kind) {
    case NewFixture::box:
      body = "\"box\": { \"from\": " + shifted(0, 0, 0) + ", \"to\": " + shifted(hand, hand, hand) + " }";
      break;
    case NewFixture::cylinder:
      body = "\"cylinder\": { \"from\": " + shifted(0, 0, 0) + ", \"to\": " + shifted(0, 0, 1.5 * hand) +
             ", \"diameter\": " + (inch ? "3" : "75") + " }";
      break;
    case NewFixture::wall:
      body = "\"plane\": { \"at\": " + shifted(0, hand, 0) + ", \"facing\": \"front\" }";
      break;
    case NewFixture::joist:
      body = "\"joist\": { \"from\": " + shifted(-span, 0, 0) + ", \"to\": " + shifted(span, 0, 0) +
             (inch ? ", \"breadth\": 1.5, \"depth\": 9.25 }" : ", \"breadth\": 50, \"depth\": 200 }");
      break;
    case NewFixture::step_body:
      body = "\"solid\": { \"file\": " + text_json(file) + ", \"at\": " + shifted(0, 0, 0) + " }";
      break;
  }
  return "{ \"name\": " + text_json(name) + ", " + body + " }";
}

std::string connection_json(const Place& at) { return "{ \"at\": " + place_json(at) + ", \"towards\": \"up\" }"; }

}  // namespace halfhard
