#include "modeller/window/hand_panel.h"

#include <algorithm>

#include "modeller/job/json_patch.h"
#include "modeller/window/field_words.h"
#include "modeller/window/hand_values.h"

namespace halfhard {
namespace {

std::string last_key(const std::string& pointer) { return pointer.substr(pointer.rfind('/') + 1); }

// The list that a part stands in, for what may be added to it.
std::string list_of(const JsonValue& part) {
  const JsonValue parent = part.parent();
  return parent ? std::string(parent.key()) : "";
}

int axis_of(std::string_view word) {
  static constexpr std::string_view kWords[] = {"right", "left", "back", "front", "up", "down"};
  const auto found = std::find(std::begin(kWords), std::end(kWords), word);
  return found == std::end(kWords) ? -1 : static_cast<int>(found - std::begin(kWords)) / 2;
}

// The ways that a plain offset may be shifted besides, square to the leg before it: with one of them it is a rolling offset.
std::vector<std::string> second_shifts(const JsonValue& step) {
  const JsonValue offset = step.find("offset");
  if (!offset || offset.kind() != JsonKind::group || offset.size() != 1) return {};
  int travel = -1;
  for (JsonValue before = step.parent().first(); before && before.index() != step.index(); before = before.next())
    if (const JsonValue go = before.kind() == JsonKind::group ? before.find("go") : JsonValue();
        go && go.kind() == JsonKind::text)
      travel = axis_of(go.text());
  if (travel < 0) return {};
  std::vector<std::string> words;
  for (const char* word : {"right", "back", "up"})
    if (axis_of(word) != travel && axis_of(word) != axis_of(offset.first().key())) words.push_back(word);
  return words;
}

void say_beside(QLabel* trouble, const std::string& why) {
  trouble->setText("\u26A0 " + QString::fromStdString(why));
  trouble->show();
}

// Only what means something beside what is there already.
bool applies(const std::string& key, const JsonValue& part) {
  if (key == "measured") return part.find("go") || (part.find("bend") && part.find("by"));
  if (key == "slides") return !part.find("swing") && !part.find("plane");
  if (key == "swing") return !part.find("slides") && !part.find("plane");
  return true;
}

}  // namespace
HandPanel::HandPanel(QWidget* parent) : QScrollArea(parent) {
  setWidgetResizable(true);
  setFrameShape(QFrame::NoFrame);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setAccessibleName("The value under the hand");
}

std::string HandPanel::shape_of(const JsonTree& tree) const {
  std::string shape = pointer_;
  const JsonValue part = tree.at(pointer_);
  const std::function<void(const JsonValue&)> visit = [&](const JsonValue& value) {
    shape += "|" + std::string(value.parent() && value.parent().kind() == JsonKind::group ? value.key() : "") +
             std::to_string(static_cast<int>(value.kind() == JsonKind::number ? JsonKind::text : value.kind()));
    for (JsonValue member = value.first(); member; member = member.next()) visit(member);
    shape += ".";
  };
  if (part) visit(part);
  return shape;
}

void HandPanel::show(const JsonTree& tree, const std::string& pointer) {
  pointer_ = pointer;
  const JsonValue unit = tree.root() ? tree.root().find("length_unit") : JsonValue();
  unit_ = unit && unit.kind() == JsonKind::text && unit.text() == "in" ? LengthUnit::inch : LengthUnit::mm;
  const std::string shape = shape_of(tree) + (unit_ == LengthUnit::inch ? "in" : "mm");
  if (shape != shape_) {
    shape_ = shape;
    build(tree);
    // What was typed has changed the fields themselves, as another unit does: the hand stays in its own.
    if (QLineEdit* again = typing_.empty() ? nullptr : field(typing_)) again->setFocus();
  }
  fill(tree);
}

void HandPanel::fill(const JsonTree& tree) {
  for (auto& [at, field] : fields_) {
    const JsonValue value = tree.at(at);
    if (!value) continue;
    if (field.sum) {
      const QString words = QString::fromStdString(comes_to ? comes_to(at) : "");
      field.sum->setText(field.lead + (field.lead.isEmpty() || words.isEmpty() ? "" : " ") + words);
    }
    if (field.tick) {
      const QSignalBlocker quiet(field.tick);
      field.tick->setChecked(value.kind() == JsonKind::boolean && value.boolean());
    }
    if (!field.edit) continue;
    field.held = value_text(value);
    if (at == typing_ || number_json(field.edit->text().toStdString()) == number_json(field.held.toStdString()))
      continue;
    field.edit->setText(field.held);
    say_trouble(field.edit, field.trouble, "");
  }
}

bool HandPanel::give_back() {
  for (auto& [at, field] : fields_) {
    if (!field.edit || !field.edit->hasFocus() || !field.edit->property("trouble").toBool()) continue;
    if (!at.ends_with("#name")) field.edit->setText(field.held);
    say_trouble(field.edit, field.trouble, "");
    return true;
  }
  return false;
}

// Undo and redo are the window's, not the field's; Escape takes back what was typed.
bool HandPanel::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Wheel && qobject_cast<QComboBox*>(watched)) {
    event->ignore();  // turning the wheel over a list scrolls the panel and changes nothing
    return true;
  }
  if (event->type() != QEvent::ShortcutOverride && event->type() != QEvent::KeyPress)
    return QScrollArea::eventFilter(watched, event);
  auto* key = static_cast<QKeyEvent*>(event);
  if (event->type() == QEvent::ShortcutOverride &&
      (key->matches(QKeySequence::Undo) || key->matches(QKeySequence::Redo))) {
    event->ignore();
    return true;
  }
  if (event->type() == QEvent::KeyPress && key->key() == Qt::Key_Escape)
    for (auto& [at, field] : fields_)
      if (field.edit == watched && !at.ends_with("#name")) {
        const std::string pointer = at;  // what follows may build the fields anew
        if (!give_back() && on_give_up) on_give_up(pointer);
        return true;
      }
  return QScrollArea::eventFilter(watched, event);
}

QLineEdit* HandPanel::field(const std::string& pointer) const {
  const auto found = fields_.find(pointer);
  return found == fields_.end() ? nullptr : found->second.edit;
}

QWidget* HandPanel::first_field() const {
  QWidget* first = nullptr;
  int least = 0;
  for (const auto& [at, field] : fields_) {
    QWidget* one = field.edit ? static_cast<QWidget*>(field.edit) : field.tick;
    const int high = one->mapTo(this, QPoint(0, 0)).y();
    if (!first || high < least) first = one, least = high;
  }
  return first;
}

// The fields before may be speaking just now, so they go later and are no longer heard.
void HandPanel::build(const JsonTree& tree) {
  fields_.clear();
  if (QWidget* before = widget()) {
    for (QObject* child : before->findChildren<QObject*>()) child->disconnect(this);
    // Or the keys would go to the list of what there is, which would then choose its first line.
    if (QWidget* focused = QApplication::focusWidget(); focused && before->isAncestorOf(focused)) setFocus();
    takeWidget();
    before->hide();
    before->deleteLater();
  }
  auto* content = new QWidget;
  auto* column = new QVBoxLayout(content);
  column->setContentsMargins(8, 4, 8, 8);
  const JsonValue part = tree.at(pointer_);
  if (part) {
    auto* form = new QFormLayout;
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    form->setVerticalSpacing(4);
    form->setLabelAlignment(Qt::AlignLeft);
    const bool whole_job = pointer_.empty();
    const std::string list = list_of(part);
    if (list == "connections" || list == "tubes" || list == "benders") add_key_name(*form, part);
    if (part.kind() == JsonKind::group) {
      // What has a heading comes last, so that nothing below a heading looks as if it belonged to it.
      for (const bool headed : {false, true})
        for (JsonValue member = part.first(); member; member = member.next()) {
          const std::string key(member.key());
          // Lists of parts have their own lines in the list of what there is.
          if (whole_job && !is_leaf(member) && key != "tolerance" && key != "stock" && key != "sheet") continue;
          if (key == "path" || (whole_job && key == "format")) continue;
          if (headed == !(is_leaf(member) || is_short_list(member))) add_rows(*form, member, key, 0);
        }
    } else {
      add_rows(*form, part, last_key(pointer_), 0);
    }
    column->addLayout(form);
    add_buttons(*column, part);
  } else {
    column->addWidget(new QLabel("Pick something in the list or in the view."));
  }
  column->addStretch(1);
  setWidget(content);
}

void HandPanel::add_rows(QFormLayout& form, const JsonValue& value, const std::string& key, int depth) {
  const FieldWords words = words_for(value, key);
  if (is_leaf(value)) {
    add_leaf(form, value, key, QString::fromStdString(words.label));
    return;
  }
  if (is_short_list(value)) {
    add_place(form, value, key);
    return;
  }
  auto* head = new QLabel(QString::fromStdString(words.label));
  QFont font = head->font();
  font.setBold(true);
  head->setFont(font);
  head->setToolTip(QString::fromStdString(words.help));
  form.addRow(head);
  int number = 0;
  for (JsonValue member = value.first(); member && depth < 6; member = member.next()) {
    ++number;
    const bool list = value.kind() == JsonKind::list;
    if (list && !is_leaf(member) && !is_short_list(member)) {
      for (JsonValue inner = member.first(); inner; inner = inner.next())
        add_rows(form, inner, std::string(inner.key()), depth + 2);
    } else {
      add_rows(form, member, list ? key + " " + std::to_string(number) : std::string(member.key()), depth + 1);
    }
  }
}

void HandPanel::add_buttons(QVBoxLayout& column, const JsonValue& part) {
  const std::string list = list_of(part);
  auto* row = new QHBoxLayout;
  auto* trouble = new QLabel;
  trouble->setWordWrap(true);
  trouble->setObjectName("trouble");
  trouble->hide();
  auto* menu = new QMenu;
  menu->setToolTipsVisible(true);
  for (const Addable& each : addable_fields(list, unit_)) {
    if (part.kind() != JsonKind::group || part.find(each.key) || !applies(each.key, part)) continue;
    const FieldWords words = field_words(each.key);
    QAction* action = menu->addAction(QString::fromStdString(words.label));
    action->setToolTip(QString::fromStdString(words.help));
    connect(action, &QAction::triggered, this, [this, each, trouble, pointer = part.pointer()] {
      const std::string why = on_add ? on_add(pointer, each.key, each.json) : "";
      if (why.empty()) return on_added(joined_pointer(pointer, each.key));
      say_beside(trouble, why);
    });
  }
  if (list == "path" && part.kind() == JsonKind::group)
    for (const std::string& word : second_shifts(part)) {
      QAction* action = menu->addAction(QString::fromStdString("shift " + word + " too"));
      action->setToolTip("A second shift makes a rolling offset of it");
      connect(action, &QAction::triggered, this, [this, word, trouble, group = part.pointer() + "/offset"] {
        const std::string why = on_add ? on_add(group, word, unit_ == LengthUnit::inch ? "2" : "50") : "";
        if (why.empty()) return on_added(joined_pointer(group, word));
        say_beside(trouble, why);
      });
    }
  if (!menu->isEmpty()) {
    auto* more = new QPushButton("Add a value");
    more->setToolTip("What else can be said about this part");
    menu->setParent(more, menu->windowFlags());
    more->setMenu(menu);
    row->addWidget(more);
  } else {
    delete menu;
  }
  const bool removable = list == "runs" || list == "fixtures" || list == "connections" || list == "path" ||
                         list == "banks" || list == "tubes" || list == "benders" || is_named_value(part);
  if (removable) {
    auto* remove = new QPushButton("Take out");
    remove->setToolTip("Takes this part out of the job; undo brings it back");
    connect(remove, &QPushButton::clicked, this, [this, trouble, pointer = part.pointer()] {
      const std::string why = on_remove ? on_remove(pointer) : "";
      if (why.empty()) return;
      say_beside(trouble, why);
    });
    row->addWidget(remove);
  }
  row->addStretch(1);
  column.addLayout(row);
  column.addWidget(trouble);
}

// The hand goes to what was added, ready to type.
void HandPanel::on_added(const std::string& pointer) {
  for (auto& [at, field] : fields_) {
    if (at != pointer && !at.starts_with(pointer + "/")) continue;
    if (field.edit) field.edit->selectAll();
    (field.edit ? static_cast<QWidget*>(field.edit) : field.tick)->setFocus();
    return;
  }
}

}  // namespace halfhard
