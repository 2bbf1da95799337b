#include "modeller/window/hand_panel.h"

#include "modeller/window/document/json_patch.h"
#include "modeller/window/field_words.h"

namespace halfhard {
namespace {

QString shown(std::string_view text) { return QString::fromUtf8(text.data(), static_cast<int>(text.size())); }

QString value_text(const JsonValue& value) {
  return shown(value.kind() == JsonKind::text ? value.text() : value.raw());
}

bool is_leaf(const JsonValue& value) { return value.kind() != JsonKind::list && value.kind() != JsonKind::group; }

// A place or a pair of words: a short list of plain values, shown in one row.
bool is_short_list(const JsonValue& value) {
  if (value.kind() != JsonKind::list || value.size() == 0 || value.size() > 3) return false;
  for (JsonValue member = value.first(); member; member = member.next())
    if (!is_leaf(member)) return false;
  return true;
}

std::string last_key(const std::string& pointer) { return pointer.substr(pointer.rfind('/') + 1); }

// The list that a part stands in, for what may be added to it.
std::string list_of(const JsonValue& part) {
  const JsonValue parent = part.parent();
  return parent ? std::string(parent.key()) : "";
}

// The job's own values are called by their exact names, which may be any word, a field's own too.
bool is_named_value(const JsonValue& value) {
  const JsonValue group = value.parent();
  return group && group.key() == "values" && group.parent() && !group.parent().parent();
}

FieldWords words_for(const JsonValue& value, const std::string& key) {
  if (is_named_value(value)) return {key, "A value of the job: write its name in any sum"};
  return field_words(key);
}

// Whether a text stands for a name or word here, not for an expression.
bool holds_text(const JsonValue& value, const std::string& key) {
  if (is_named_value(value)) return false;
  if (is_text_field(key)) return true;
  // An end that names a connection; what a tape touched.
  return (key == "from" || key == "to" || key == "swing" || key == "measured") && value.kind() == JsonKind::text;
}

// A field of its own: each visit to it is one step of undo, and undo is the job's, not the letters'.
class TypingField : public QLineEdit {
 public:
  TypingField(const QString& text, HandPanel& panel) : QLineEdit(text), panel_(panel) {}

 protected:
  bool event(QEvent* event) override {
    if (event->type() == QEvent::ShortcutOverride && undoes(static_cast<QKeyEvent*>(event))) {
      event->ignore();  // so that it reaches the window's own undo
      return false;
    }
    return QLineEdit::event(event);
  }
  void keyPressEvent(QKeyEvent* event) override {
    const auto& undo = event->matches(QKeySequence::Undo) ? panel_.on_undo : panel_.on_redo;
    if (!undoes(event)) return QLineEdit::keyPressEvent(event);
    if (undo) undo();
  }
  void focusInEvent(QFocusEvent* event) override {
    QLineEdit::focusInEvent(event);
    if (panel_.on_leave) panel_.on_leave();
  }

 private:
  static bool undoes(const QKeyEvent* event) {
    return event->matches(QKeySequence::Undo) || event->matches(QKeySequence::Redo);
  }
  HandPanel& panel_;
};

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
    retire();
    build(tree);
    say_sums();
    return;
  }
  for (auto& [at, field] : fields_) {
    const JsonValue value = tree.at(at);
    if (!value) continue;
    const QString text = value_text(value);
    if (field.tick) {
      const QSignalBlocker quiet(field.tick);
      field.tick->setChecked(value.kind() == JsonKind::boolean && value.boolean());
    }
    if (!field.edit || field.edit == typing_) continue;
    if (number_json(field.edit->text().toStdString()) == number_json(text.toStdString())) continue;
    field.edit->setText(text);
    field.trouble->hide();
    field.edit->setProperty("trouble", false);
  }
  say_sums();
}

// Goes later: a field, button or menu of what stands here may still be speaking. Its focus is taken first, in silence: else
// it would wander to whatever is next and choose another part.
void HandPanel::retire() {
  QWidget* before = widget();
  if (!before) return;
  if (QWidget* focused = QApplication::focusWidget(); focused && before->isAncestorOf(focused)) {
    const QSignalBlocker quiet(focused);
    setFocus();
  }
  takeWidget()->deleteLater();
}

void HandPanel::say_sums() {
  for (auto& [at, field] : fields_) {
    if (!field.sum) continue;
    const std::string words = comes_to && !field.text ? comes_to(at) : "";
    field.sum->setText(QString::fromStdString(words));
    field.sum->setVisible(!words.empty());
  }
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

void HandPanel::build(const JsonTree& tree) {
  fields_.clear();
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

void HandPanel::say_trouble(QLineEdit* edit, QLabel* trouble, const std::string& why) {
  trouble->setText("\u26A0 " + QString::fromStdString(why));
  trouble->setVisible(!why.empty());
  edit->setProperty("trouble", !why.empty());
  edit->style()->unpolish(edit);
  edit->style()->polish(edit);
}

// The name of a member of connections, tubes or benders is its key. It changes where the part stands in the text, and with
// that all fields, so it is taken up only when it is finished.
void HandPanel::add_key_name(QFormLayout& form, const JsonValue& part) {
  const FieldWords words = field_words("name");
  auto* trouble = new QLabel;
  trouble->setWordWrap(true);
  trouble->setObjectName("trouble");
  trouble->hide();
  const QString before = shown(part.key());
  auto* edit = new QLineEdit(before);
  edit->setToolTip(QString::fromStdString(words.help) + "\nEnter takes it up, wherever the job uses the name");
  edit->setAccessibleName(QString::fromStdString(words.label));
  connect(edit, &QLineEdit::editingFinished, this,
          [this, before, part = part.pointer(), guard = QPointer(edit), trouble] {
            if (!guard || guard->text() == before || !on_rename) return;
            // Later: the field must not be deleted while it still speaks.
            QTimer::singleShot(0, this, [this, part, guard, trouble] {
              if (!guard) return;
              const std::string why = on_rename(part, guard->text().toStdString());
              if (guard && !why.empty()) say_trouble(guard, trouble, why);
            });
          });
  fields_[part.pointer() + "#name"] = {edit, nullptr, trouble, nullptr, true};
  form.addRow(QString::fromStdString(words.label), edit);
  form.addRow(trouble);
}

QLineEdit* HandPanel::make_edit(const JsonValue& value, const std::string& key, QLabel* trouble) {
  const std::string pointer = value.pointer();
  const bool text = holds_text(value, key);
  auto* edit = new TypingField(value_text(value), *this);
  edit->setMinimumWidth(40);
  edit->setCursorPosition(0);
  const FieldWords words = words_for(value, key);
  edit->setToolTip(
      QString::fromStdString(words.help) +
      (text ? "" : "\nA number, a length with its unit (3/8 in), or a sum with the job's values (pitch + 20)"));
  edit->setAccessibleName(QString::fromStdString(words.label));
  trouble->setWordWrap(true);
  trouble->setObjectName("trouble");
  trouble->hide();
  if (suggestions) {
    const QStringList choices = suggestions(key);
    if (!choices.isEmpty()) {
      auto* completer = new QCompleter(choices, edit);
      completer->setFilterMode(Qt::MatchContains);
      completer->setCaseSensitivity(Qt::CaseInsensitive);
      edit->setCompleter(completer);
    }
  }
  const bool is_name = key == "name" && !is_named_value(value);
  const auto changed = [this, pointer, text, is_name, edit, trouble](const QString& typed) {
    const std::string bare = typed.toStdString();
    typing_ = edit;
    std::string why;
    if (is_name && on_rename)
      why = on_rename(pointer.substr(0, pointer.rfind('/')), bare);
    else if (on_change)
      why = on_change(pointer, text ? text_json(bare) : number_json(bare));
    typing_ = nullptr;
    say_trouble(edit, trouble, why);
  };
  connect(edit, &QLineEdit::textEdited, this, changed);
  if (edit->completer())
    connect(edit->completer(), QOverload<const QString&>::of(&QCompleter::activated), this, changed);
  connect(edit, &QLineEdit::editingFinished, this, [this] {
    if (on_leave) on_leave();
  });
  auto* sum = new QLabel;
  sum->setObjectName("sum");
  sum->setTextInteractionFlags(Qt::TextSelectableByMouse);
  sum->hide();
  fields_[pointer] = {edit, nullptr, trouble, sum, text};
  return edit;
}

void HandPanel::add_leaf(QFormLayout& form, const JsonValue& value, const std::string& key, const QString& label) {
  const FieldWords words = words_for(value, key);
  auto* name = new QLabel(label);
  name->setToolTip(QString::fromStdString(words.help));
  if (value.kind() == JsonKind::boolean) {
    auto* tick = new QCheckBox;
    tick->setChecked(value.boolean());
    tick->setToolTip(QString::fromStdString(words.help));
    tick->setAccessibleName(label);
    const std::string pointer = value.pointer();
    connect(tick, &QCheckBox::toggled, this, [this, pointer](bool on) {
      if (on_change) on_change(pointer, on ? "true" : "false");
    });
    fields_[pointer] = {nullptr, tick, nullptr, nullptr, false};
    form.addRow(name, tick);
    return;
  }
  auto* trouble = new QLabel;
  auto* beside = new QHBoxLayout;
  beside->addWidget(make_edit(value, key, trouble), 3);
  beside->addWidget(fields_[value.pointer()].sum, 0);
  form.addRow(name, beside);
  form.addRow(trouble);
}

void HandPanel::add_place(QFormLayout& form, const JsonValue& value, const std::string& key) {
  const FieldWords words = field_words(key);
  auto* name = new QLabel(QString::fromStdString(words.label));
  name->setToolTip(QString::fromStdString(words.help));
  auto* row = new QHBoxLayout;
  row->setSpacing(3);
  auto* trouble = new QLabel;
  static const char* const kAxes[] = {"right", "back", "up"};
  int place = 0;
  for (JsonValue member = value.first(); member; member = member.next(), ++place) {
    QLineEdit* edit = make_edit(member, key == "joins" ? "name" : key, trouble);
    if (value.size() == 3) {
      edit->setToolTip(QString("%1: along the site's %2\n%3")
                           .arg(QString::fromStdString(words.label), kAxes[place], QString::fromStdString(words.help)));
      edit->setAccessibleName(QString::fromStdString(words.label) + " " + kAxes[place]);
    }
    auto* column = new QVBoxLayout;
    column->setSpacing(0);
    column->addWidget(edit);
    column->addWidget(fields_[member.pointer()].sum);
    column->addStretch(1);
    row->addLayout(column);
  }
  form.addRow(name, row);
  form.addRow(trouble);
}

void HandPanel::add_buttons(QVBoxLayout& column, const JsonValue& part) {
  const std::string list = list_of(part);
  const std::vector<Addable> addable = addable_fields(list, unit_);
  auto* row = new QHBoxLayout;
  if (part.kind() == JsonKind::group && !addable.empty()) {
    auto* more = new QPushButton("Add a value");
    more->setToolTip("What else can be said about this part");
    auto* menu = new QMenu(more);
    for (const Addable& each : addable) {
      if (part.find(each.key)) continue;
      const FieldWords words = field_words(each.key);
      QAction* action = menu->addAction(QString::fromStdString(words.label));
      action->setToolTip(QString::fromStdString(words.help));
      connect(action, &QAction::triggered, this, [this, each, pointer = part.pointer()] {
        if (on_add) on_add(pointer, each.key, each.json);
      });
    }
    menu->setToolTipsVisible(true);
    more->setMenu(menu);
    row->addWidget(more);
  }
  const bool removable = list == "runs" || list == "fixtures" || list == "connections" || list == "path" ||
                         list == "banks" || list == "tubes" || list == "benders" || is_named_value(part);
  if (removable) {
    auto* remove = new QPushButton("Take out");
    remove->setToolTip("Takes this part out of the job; undo brings it back");
    connect(remove, &QPushButton::clicked, this, [this, pointer = part.pointer()] {
      // Later: the button must not be deleted while it is still being clicked.
      QTimer::singleShot(0, this, [this, pointer] {
        if (on_remove) on_remove(pointer);
      });
    });
    row->addWidget(remove);
  }
  row->addStretch(1);
  column.addLayout(row);
}

}  // namespace halfhard
