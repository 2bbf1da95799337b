#include "viewer/theme.h"

namespace halfhard {

const Theme& light_theme() {
  static const Theme theme{"light", Colour::of(0xEDF1F3), false};
  return theme;
}

const Theme& dark_theme() {
  static const Theme theme{"dark", Colour::of(0x1E262C), true};
  return theme;
}

Finish Theme::finish(Paint paint) const {
  switch (paint) {
    case Paint::copper:
      return {Colour::of(dark ? 0xE8955C : 0xD67C47), 1, 0.75, 1};
    case Paint::mark:
      return {Colour::of(0x10161B), 1, 0, 2};
    case Paint::hazard_dark:
      return {Colour::of(0x101010), 1, 0, 2};
    case Paint::hazard_bright:
      return {Colour::of(0xFFD500), 1, 0, 2};
    case Paint::connection:
      return {Colour::of(dark ? 0x4CC9BE : 0x00776C), 1, 0.2, 2};
    case Paint::wall:
      return {Colour::of(dark ? 0x93A4B3 : 0x74889A), dark ? 0.07 : 0.09, 0, 1};
    case Paint::fixture:
      return {Colour::of(dark ? 0xA7ADB2 : 0x7A7F84), 0.07, 0, 1};
    case Paint::lagging:
      return {Colour::of(dark ? 0xEDE6D6 : 0xB9AE98), 0.18, 0, 1};
    case Paint::timber:
      return {Colour::of(dark ? 0xC2A26B : 0xB08D55), 0.13, 0, 1};
    case Paint::electric:
      return {Colour::of(dark ? 0xB79AE6 : 0x7A55B8), 0.22, 0, 1};
    case Paint::gas:
      return {Colour::of(dark ? 0xE4D36A : 0x9A8A12), 0.22, 0, 1};
    case Paint::edge:
      return {Colour::of(dark ? 0x6C7A86 : 0x8695A2), 1, 0, 1};
    case Paint::ghost_edge:
      return {Colour::of(dark ? 0x46515A : 0xBAC4CC), 1, 0, 1};
    case Paint::drilling:
      return {Colour::of(dark ? 0xF2F5F7 : 0x20282E), 1, 0, 2};
    case Paint::chosen:
      return {Colour::of(dark ? 0x6BB6FF : 0x0B61C4), 0.42, 0, 2.5};
    case Paint::bender:
      return {Colour::of(dark ? 0x9FB0BF : 0x6E7F8E), 1, 0.25, 1};
    case Paint::bench:
      return {Colour::of(dark ? 0x6E6253 : 0xB9AA93), 1, 0, 1};
  }
  return {};
}

LabelColours Theme::label(LabelKind kind) const {
  const Colour text = Colour::of(dark ? 0xEDF2F5 : 0x1A2329);
  const Colour ground = Colour::of(dark ? 0x263038 : 0xFFFFFF);
  switch (kind) {
    case LabelKind::bend:
      return {Colour::of(dark ? 0x1A120D : 0xFFFFFF), Colour::of(dark ? 0xF0B48F : 0x7A3E1C),
              Colour::of(dark ? 0x1A120D : 0xFFFFFF)};
    case LabelKind::run:
      return {text, ground, finish(Paint::copper).colour};
    case LabelKind::connection:
      return {text, ground, finish(Paint::connection).colour};
    case LabelKind::fixture:
      return {Colour::of(dark ? 0xC3D0DA : 0x3E5162), ground, ground};
    case LabelKind::clearance:
      return {text, ground, text};
    case LabelKind::failing:
      return {Colour::of(0x000000), Colour::of(0xFFD500), Colour::of(0x000000)};
    case LabelKind::warning:
      return {text, ground, Colour::of(dark ? 0xD9B3FF : 0x6A1B9A)};
    case LabelKind::measure:
      return {Colour::of(dark ? 0x0B1B2B : 0xFFFFFF), finish(Paint::chosen).colour,
              Colour::of(dark ? 0x0B1B2B : 0xFFFFFF)};
  }
  return {};
}

Colour Theme::line(bool failing) const {
  if (failing) return Colour::of(dark ? 0xFFD500 : 0x000000);
  return Colour::of(dark ? 0xDCE4EA : 0x2A353D);
}

}  // namespace halfhard
