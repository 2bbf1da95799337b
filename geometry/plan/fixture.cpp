#include "geometry/plan/fixture.h"

#include <array>

namespace halfhard {
namespace {

struct Word {
  Service service;
  const char* text;
};

constexpr std::array<Word, 11> kWords = {{{Service::none, ""},
                                          {Service::cold, "cold"},
                                          {Service::hot, "hot"},
                                          {Service::heating_flow, "heating flow"},
                                          {Service::heating_return, "heating return"},
                                          {Service::gas, "gas"},
                                          {Service::vent, "vent"},
                                          {Service::discharge, "discharge"},
                                          {Service::waste, "waste"},
                                          {Service::electric, "electric"},
                                          {Service::other, "other"}}};

}  // namespace

const char* service_word(Service service) {
  for (const Word& word : kWords) {
    if (word.service == service) return word.text;
  }
  return "";
}

std::optional<Service> service_from_word(const std::string& text) {
  for (const Word& word : kWords) {
    if (text == word.text) return word.service;
  }
  return std::nullopt;
}

}  // namespace halfhard
