// The value under my hand: every field of the chosen part, with units and expressions as they are written. What is typed
// is tried at once; what cannot be used is said beside the field and nothing else changes.
#pragma once

#include <QtWidgets>
#include <functional>
#include <map>
#include <string>

#include "geometry/plan/plan.h"
#include "modeller/job/json_tree.h"

namespace halfhard {

class HandPanel : public QScrollArea {
 public:
  explicit HandPanel(QWidget* parent);

  // Takes up JSON at a pointer. Returns why it cannot, or "".
  std::function<std::string(const std::string& pointer, const std::string& json)> on_change;
  // Gives a part another name, with all that calls it by name. Returns why it cannot, or "".
  std::function<std::string(const std::string& part, const std::string& name)> on_rename;
  std::function<void()> on_leave;  // the field was left
  std::function<void(const std::string& pointer)>
      on_give_up;  // Escape: what was typed since it was entered is taken back
  // Returns why it cannot, or "".
  std::function<std::string(const std::string& group, const std::string& key, const std::string& json)> on_add;
  std::function<std::string(const std::string& pointer)> on_remove;  // why it cannot be, or ""
  std::function<QStringList(const std::string& key)> suggestions;
  // What the text at a pointer comes to, as a person reads it: "= 298.5 mm"; "" where it says no more than the text.
  std::function<std::string(const std::string& pointer)> comes_to;

  // Shows the part at `pointer`; keeps fields, focus and what is being typed where only values changed.
  void show(const JsonTree& tree, const std::string& pointer);
  // Puts the job's own value back into the field under the hand where what it holds was refused. False where none was.
  bool give_back();
  const std::string& pointer() const { return pointer_; }
  // The field that stands at a pointer, or nullptr. That of the name of a group's member: its pointer and "#name".
  QLineEdit* field(const std::string& pointer) const;
  QWidget* first_field() const;  // the uppermost; nullptr for none

 private:
  struct Field {
    QLineEdit* edit = nullptr;
    QCheckBox* tick = nullptr;
    QLabel* trouble = nullptr;
    QLabel* sum = nullptr;  // what the text comes to
    QString lead;           // before it: the direction, of a place
    QString held;           // as the job holds it
  };
  bool eventFilter(QObject* watched, QEvent* event) override;
  void build(const JsonTree& tree);
  void fill(const JsonTree& tree);
  void typed(const std::string& pointer, bool text, bool is_name, const QString& words);
  void add_rows(QFormLayout& form, const JsonValue& value, const std::string& key, int depth);
  void add_leaf(QFormLayout& form, const JsonValue& value, const std::string& key, const QString& label);
  void add_place(QFormLayout& form, const JsonValue& value, const std::string& key);
  void say_trouble(QLineEdit* edit, QLabel* trouble, const std::string& why);
  // The field itself, or the list that it stands in where there is something to choose from.
  QWidget* make_edit(const JsonValue& value, const std::string& key, QLabel* trouble);
  void add_key_name(QFormLayout& form, const JsonValue& part);
  void on_added(const std::string& pointer);
  void add_buttons(QVBoxLayout& column, const JsonValue& part);
  std::string shape_of(const JsonTree& tree) const;

  std::string pointer_, shape_;
  std::string typing_;  // the field that is being typed in: what is shown of the job does not overwrite it
  LengthUnit unit_ = LengthUnit::mm;
  std::map<std::string, Field> fields_;
};

}  // namespace halfhard
