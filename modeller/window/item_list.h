// What do I have: the job as a list, made from its text: site (connections, fixtures), pipes with their path, tubes,
// benders, values. Each line carries the JSON pointer of its part.
#pragma once

#include <QtWidgets>
#include <functional>
#include <string>

#include "modeller/job/json_tree.h"

namespace halfhard {

class ItemList : public QTreeWidget {
 public:
  explicit ItemList(QWidget* parent);

  std::function<void(const std::string& pointer)> on_choose;
  std::function<void(const std::string& pointer, const QPoint& global)> on_menu;  // asked for with the right button
  std::function<void()> on_edit;                                                  // Enter, or clicked twice

  // Keeps the choice and what is folded, as far as they are still there.
  void show(const JsonTree& tree);
  void choose(const std::string& pointer);  // does not call on_choose
  std::string chosen() const;
  bool has(const std::string& pointer) const;  // a line of its own

 private:
  QTreeWidgetItem* add(QTreeWidgetItem* parent, const QString& text, const std::string& pointer);
  void add_runs(const JsonValue& runs);
  bool quiet_ = false;
};

}  // namespace halfhard
