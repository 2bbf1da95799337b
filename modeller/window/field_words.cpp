#include "modeller/window/field_words.h"

#include <algorithm>
#include <map>
#include <set>

namespace halfhard {
namespace {

const std::map<std::string, FieldWords>& table() {
  static const std::map<std::string, FieldWords> words = {
      {"name", {"name", "What this is called on sheets and cards"}},
      {"title", {"title", "What the job is called on every sheet"}},
      {"origin", {"origin", "Where the site's 0, 0, 0 is: a place you can put the tape on"}},
      {"surface", {"surface", "Which surface the wall and floor are taped from: finished or bare"}},
      {"tube", {"tube", "Which of the job's tubes the pipe is made from"}},
      {"bender", {"bender", "Which of the job's benders bends it"}},
      {"service", {"service", "What the pipe carries; separation rules go by it"}},
      {"lagging", {"lagging", "Thickness of the lagging, all round"}},
      {"keep_clear", {"keep clear", "Least gap to anything else, from the outside of the tube or its lagging"}},
      {"spare", {"spare tube", "Extra tube left on an end while bending, cut off last"}},
      {"datum", {"start end", "At the end where the pipe starts, which the marks are measured from"}},
      {"free", {"far end", "At the end that the pipe goes to"}},
      {"from", {"from", "Where it starts"}},
      {"to", {"to", "Where it goes"}},
      {"at", {"at", "Place from the job's origin: right, back, up"}},
      {"towards", {"towards", "The way the tube leaves the fitting: right, left, back, front, up or down"}},
      {"insertion", {"insertion", "How much tube goes into the fitting; added to the cut length"}},
      {"joins", {"joins", "Fixtures that this end is meant to touch"}},
      {"joins_for", {"joins for", "How much of the tube may touch them; one tube diameter if left out"}},
      {"straight_needed",
       {"straight needed", "Least straight tube from the fitting face before the first curve: nut, jaw, olive"}},
      {"loose", {"loose by", "How far the fitting can be shifted along its axis while fitting"}},
      {"go", {"go", "Which way this leg runs"}},
      {"by", {"by", "How far, centre line to centre line; rest means what is left"}},
      {"bend", {"bend", "How much to turn, in degrees"}},
      {"roll", {"turn", "How far round the tube this bend goes from the plane of the bend before, in degrees"}},
      {"offset", {"offset", "How far the line is shifted, square to the way it runs"}},
      {"angle", {"angle", "Angle of the set in degrees; or rule for the 600 mm folding rule"}},
      {"advance", {"advance", "How much line the offset uses, centre to centre"}},
      {"passover", {"passover", "How far the pipe is lifted over what it crosses"}},
      {"flat", {"flat", "Straight length on top of the passover"}},
      {"height",
       {"height to", "intersection: to the corner, where the centre lines meet. crown: to the top of the bend"}},
      {"measured", {"taped to", "Which face the tape touched: centre, outside or inside"}},
      {"until", {"until", "Which face the tape ended on"}},
      {"former_radius",
       {"former radius", "Centre-line radius of a finished bend, measured; not the figure on the former"}},
      {"radius_measured", {"radius measured", "Tick once a trial bend was measured"}},
      {"fits", {"fits tube", "Tube outside diameter that the former fits"}},
      {"shortest_end", {"shortest end", "Least straight tube before the bend on the hook side"}},
      {"usual_end", {"usual end", "What is comfortable to hold there"}},
      {"shortest_lever", {"shortest lever side", "Least straight tube beyond the bend on the lever side"}},
      {"shortest_between", {"shortest between", "Least straight tube between two bends"}},
      {"most_angle", {"most angle", "The furthest the bender pulls, in degrees"}},
      {"mark_offset",
       {"mark offset", "From the start of the curve on the hook side to the mark, positive into the bend"}},
      {"line_up",
       {"line the mark up", "What the mark is lined up with, in words: square to the front edge of the former"}},
      {"hook", {"hook", "Which end of the tube goes on the hook: datum is the start end, free the far end"}},
      {"swing", {"swing", "Which way it swings: the lever of a bender, or a door about its hinge"}},
      {"stands", {"stands", "How the bender stands in front of you"}},
      {"spring_back", {"spring-back", "Trial bends: pulled to, and what was left"}},
      {"set", {"set", "Pulled to, in degrees"}},
      {"got", {"got", "What was left after letting go, in degrees"}},
      {"calibrated_with", {"calibrated with", "The tube that the trial bends were made with"}},
      {"standard", {"standard", "EN 1057 or ASTM B88"}},
      {"size", {"size", "As bought: 15 x 0.7, or 1/2 L"}},
      {"temper", {"temper", "R250 is half hard"}},
      {"outside_diameter", {"outside diameter", "Measured across the tube"}},
      {"wall", {"wall", "Thickness of the tube's wall"}},
      {"box", {"box", "A body between two opposite corners"}},
      {"cylinder", {"round body", "Between two ends, with flat faces"}},
      {"plane", {"flat face", "A wall, floor or ceiling"}},
      {"joist", {"joist", "A timber from support to support"}},
      {"solid", {"STEP body", "A body from a file"}},
      {"file", {"file", "A STEP file beneath the job's own folder"}},
      {"diameter", {"diameter", "Across the round body"}},
      {"facing", {"facing", "Its free side: the way you would step away from it"}},
      {"breadth", {"breadth", "Of the joist, side to side"}},
      {"depth", {"depth", "Of the joist, top to bottom"}},
      {"slides", {"slides", "A drawer: how far it pulls out; every position counts"}},
      {"turn", {"turned", "Turned about an axis"}},
      {"about", {"about", "The axis of the turn"}},
      {"may_drill", {"may be drilled", "Tick if a pipe may pass through a hole in it"}},
      {"count", {"how many", "Pieces in the bank"}},
      {"step", {"step", "From one piece to the next: a direction and a distance"}},
      {"match", {"match", "pieces: all alike. gaps: equal gaps between the pipes all along"}},
      {"of", {"of", "Which pipe is repeated"}},
      {"drill_clearance", {"room in holes", "Added all round the tube in a drilled hole"}},
      {"marking", {"marking", "all: all marks on the straight tube. each: each after the bend before"}},
      {"order", {"order made", "Bend numbers in the order they are made"}},
      {"path", {"path", "The way from one end to the other, leg by leg"}},
      {"length_unit", {"length unit", "mm or in, for every length of the job"}},
      {"length", {"length", "How far a length may be out"}},
      {"tolerance", {"tolerance", "What is near enough"}},
      {"right", {"right", "Along the site's right"}},
      {"left", {"left", "Along the site's left"}},
      {"back", {"back", "Away from you"}},
      {"front", {"front", "Towards you"}},
      {"up", {"up", "Upwards"}},
      {"down", {"down", "Downwards"}},
  };
  return words;
}

}  // namespace

FieldWords field_words(const std::string& key) {
  const auto found = table().find(key);
  if (found != table().end()) return found->second;
  std::string label = key;
  std::replace(label.begin(), label.end(), '_', ' ');
  return {label, ""};
}

bool is_text_field(const std::string& key) {
  static const std::set<std::string> text = {
      "name",           "title",           "origin",      "surface",    "tube",
      "bender",         "service",         "towards",     "go",         "line_up",
      "hook",           "standard",        "size",        "temper",     "file",
      "facing",         "about",           "match",       "of",         "marking",
      "height",         "calibrated_with", "length_unit", "format",     "owner",
      "identification", "revision",        "date",        "created_by", "approved_by",
      "projection",     "reason",          "until",       "off"};
  return text.count(key) > 0;
}

std::vector<Addable> addable_fields(const std::string& where, LengthUnit unit) {
  struct Start {
    const char *key, *mm, *inch;  // inch null: the same
  };
  static const std::map<std::string, std::vector<Start>> all = {
      {"runs",
       {{"service", "\"cold\"", nullptr},
        {"lagging", "13", "0.5"},
        {"keep_clear", "10", "0.5"},
        {"spare", "{ \"datum\": 0, \"free\": 50 }", "{ \"datum\": 0, \"free\": 2 }"},
        {"hook", "\"datum\"", nullptr},
        {"marking", "\"all\"", nullptr},
        {"drill_clearance", "2", "0.0625"}}},
      {"fixtures",
       {{"keep_clear", "10", "0.5"},
        {"may_drill", "true", nullptr},
        {"service", "\"electric\"", nullptr},
        {"slides", "{ \"front\": 400 }", "{ \"front\": 16 }"},
        {"turn", "{ \"about\": \"up\", \"by\": 10, \"at\": [0, 0, 0] }", nullptr},
        {"swing", "{ \"about\": \"up\", \"at\": [0, 0, 0], \"by\": 90 }", nullptr}}},
      {"connections",
       {{"insertion", "15", "0.5"},
        {"straight_needed", "30", "1.25"},
        {"loose", "3", "0.125"},
        {"joins", "[]", nullptr},
        {"joins_for", "20", "0.75"}}},
      {"tubes", {{"temper", "\"R250\"", nullptr}}},
      {"benders",
       {{"radius_measured", "true", nullptr},
        {"fits", "15", "0.625"},
        {"shortest_end", "80", "3.25"},
        {"usual_end", "120", "4.75"},
        {"shortest_lever", "60", "2.5"},
        {"shortest_between", "20", "0.75"},
        {"most_angle", "180", nullptr},
        {"mark_offset", "0", nullptr},
        {"line_up", "\"square to the front edge of the former\"", nullptr},
        {"stands", "{ \"hook\": \"left\", \"swing\": \"towards you\" }", nullptr},
        {"spring_back", "[ { \"set\": 92, \"got\": 90 } ]", nullptr}}},
      {"banks", {{"match", "\"pieces\"", nullptr}}},
      {"path", {{"measured", "{ \"from\": \"centre\", \"until\": \"outside\" }", nullptr}}},
  };
  std::vector<Addable> fields;
  const auto found = all.find(where);
  if (found == all.end()) return fields;
  for (const Start& start : found->second)
    fields.push_back({start.key, unit == LengthUnit::inch && start.inch ? start.inch : start.mm});
  return fields;
}

std::string step_words(const std::vector<std::pair<std::string, std::string>>& members) {
  std::string text;
  for (const auto& [key, value] : members) {
    if (key == "measured") continue;
    if (key == "go" || key == "by")
      text += (text.empty() ? "" : " ") + value;
    else
      text += (text.empty() ? "" : ", ") + field_words(key).label + " " + value;
  }
  return text;
}

}  // namespace halfhard
