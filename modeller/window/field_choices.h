// What there is to choose from in a field that holds a word or a name.
#pragma once

#include <QStringList>
#include <string>

#include "modeller/job/json_tree.h"

namespace halfhard {

// Empty where anything may be typed.
QStringList words_to_choose(const JsonTree& tree, const std::string& key);

}  // namespace halfhard
