// The example job that other programs are checked with, word for word.
#pragma once

inline constexpr const char* kContractExample = R"JOB({
  "format": "halfhard-job/1",
  "title": "Basin tails, studio flat",
  "origin": "left end of the finished wall, finished floor", "surface": "finished",
  "length_unit": "mm",
  "tolerance": { "length": 3, "angle": 3 },
  "values": { "pitch": 65, "tap_height": 780, "outlet_height": "tap_height - 430" },
  "tubes":   { "15 mm": { "standard": "EN 1057", "size": "15 x 0.7", "temper": "R250" },
               "own":   { "outside_diameter": 15, "wall": 1.0 } },
  "benders": { "bench": { "former_radius": 55, "radius_measured": true, "fits": 15, "shortest_end": 80, "usual_end": 120, "shortest_lever": 60,
                          "shortest_between": 20, "most_angle": 180, "mark_offset": 0, "line_up": "square to the front edge of the former",
                          "stands": { "hook": "left", "swing": "towards you" },
                          "spring_back": [ { "set": 92, "got": 90 } ], "calibrated_with": "15 mm" } },
  "fixtures": [
    { "name": "wall",  "plane": { "at": [0,600,0], "facing": "front" }, "keep_clear": 2 },
    { "name": "trap",  "cylinder": { "from": [300,390,500], "to": [300,390,620], "diameter": 75 }, "keep_clear": 10 },
    { "name": "back panel", "box": { "from": [0,480,100], "to": [600,498,800] }, "keep_clear": 5, "may_drill": true },
    { "name": "drawer", "box": { "from": [20,40,120], "to": [580,380,300] }, "slides": { "front": 400 }, "keep_clear": 10 }
  ],
  "connections": { "hot tap": { "at": [365,460,780], "towards": "down", "insertion": 15, "joins": [], "loose": 3 } },
  "site_checks": [ { "from": [300,460,350], "to": "hot tap", "measured": 434.9, "within": 5 } ],
  "runs": [
    { "name": "hot tail", "tube": "15 mm", "bender": "bench", "service": "hot", "lagging": 0, "keep_clear": 0,
      "spare": { "datum": 0, "free": 50 }, "marking": "each",
      "from": { "at": [300,460,"outlet_height"], "towards": "up", "insertion": 15 },
      "to": "hot tap",
      "path": [ { "go": "up", "by": 150 },
                { "offset": { "right": "pitch" }, "angle": 45 },
                { "go": "up", "by": "rest" } ] }
  ],
  "banks": [ { "of": "hot tail", "count": 2, "step": { "left": 60 }, "match": "pieces" } ]
}
)JOB";
