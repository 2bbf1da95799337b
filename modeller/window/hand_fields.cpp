// The fields of the panel under the hand, one for each value: typed in, ticked, or chosen from a list.
#include "modeller/job/json_patch.h"
#include "modeller/window/hand_panel.h"
#include "modeller/window/hand_values.h"

namespace halfhard {
namespace {

QLabel* trouble_label() {
  auto* trouble = new QLabel;
  trouble->setWordWrap(true);
  trouble->setObjectName("trouble");
  trouble->hide();
  return trouble;
}

// What a text comes to, in smaller letters beside or under its field.
QLabel* sum_label() {
  auto* label = new QLabel;
  QFont font = label->font();
  font.setPointSizeF(0.88 * font.pointSizeF());
  label->setFont(font);
  label->setObjectName("sum");
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  label->setToolTip("What is typed comes to this");
  return label;
}

}  // namespace

void HandPanel::say_trouble(QLineEdit* edit, QLabel* trouble, const std::string& why) {
  trouble->setText("\u26A0 " + QString::fromStdString(why));
  trouble->setVisible(!why.empty());
  if (edit->property("trouble").toBool() == !why.empty()) return;
  edit->setProperty("trouble", !why.empty());
  edit->style()->unpolish(edit);
  edit->style()->polish(edit);
}

// The name of a member of connections, tubes or benders is its key. It changes where the part stands in the text, and with
// that all fields, so it is taken up only when it is finished.
void HandPanel::add_key_name(QFormLayout& form, const JsonValue& part) {
  const FieldWords words = field_words("name");
  QLabel* trouble = trouble_label();
  const QString before = shown(part.key());
  auto* edit = new QLineEdit(before);
  edit->setToolTip(QString::fromStdString(words.help) + "\nEnter takes it up, wherever the job uses the name");
  edit->setAccessibleName(QString::fromStdString(words.label));
  edit->installEventFilter(this);
  connect(edit, &QLineEdit::editingFinished, this,
          [this, before, part = part.pointer(), guard = QPointer(edit), trouble] {
            if (!guard || guard->text() == before || !on_rename) return;
            // Later: the list of what there is follows, and must not while the field still speaks.
            QTimer::singleShot(0, this, [this, part, guard, trouble] {
              if (!guard) return;
              const std::string why = on_rename(part, guard->text().toStdString());
              if (guard && !why.empty()) say_trouble(guard, trouble, why);
            });
          });
  Field& field = fields_[part.pointer() + "#name"];
  field.edit = edit;
  field.trouble = trouble;
  form.addRow(QString::fromStdString(words.label), edit);
  form.addRow(trouble);
}

// What is typed is tried at once. What is refused leaves the job as it was before anything was typed.
void HandPanel::typed(const std::string& pointer, bool text, bool is_name, const QString& words) {
  QLineEdit* edit = field(pointer);
  if (!edit) return;
  const std::string bare = words.toStdString();
  std::string why;
  typing_ = pointer;
  if (is_name && on_rename)
    why = on_rename(pointer.substr(0, pointer.rfind('/')), bare);
  else if (on_change)
    why = on_change(pointer, text ? text_json(bare) : number_json(bare));
  typing_.clear();
  const auto found = fields_.find(pointer);
  if (found == fields_.end() || found->second.edit != edit) return;  // the fields were built anew
  if (!why.empty()) why += ". The job keeps " + found->second.held.toStdString();
  say_trouble(edit, found->second.trouble, why);
}

QWidget* HandPanel::make_edit(const JsonValue& value, const std::string& key, QLabel* trouble) {
  const std::string pointer = value.pointer();
  const bool text = holds_text(value, key), is_name = key == "name" && !is_named_value(value);
  const FieldWords words = words_for(value, key);
  const QStringList choices = text && suggestions ? suggestions(key) : QStringList();
  QComboBox* list = choices.isEmpty() ? nullptr : new QComboBox;
  auto* edit = list ? nullptr : new QLineEdit;
  if (list) {
    list->setEditable(true);
    list->setInsertPolicy(QComboBox::NoInsert);
    list->addItems(choices);
    list->setMinimumContentsLength(8);
    list->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    list->installEventFilter(this);
    list->setFocusPolicy(Qt::StrongFocus);
    list->setAccessibleName(QString::fromStdString(words.label));
    list->completer()->setFilterMode(Qt::MatchContains);
    list->completer()->setCompletionMode(QCompleter::PopupCompletion);
    edit = list->lineEdit();
    connect(list, QOverload<int>::of(&QComboBox::activated), this,
            [this, pointer, text, is_name, edit](int) { typed(pointer, text, is_name, edit->text()); });
  }
  edit->setText(value_text(value));
  edit->setMinimumWidth(40);
  edit->setCursorPosition(0);
  edit->setToolTip(
      QString::fromStdString(words.help) +
      (text ? "" : "\nA number, a length with its unit (3/8 in), or a sum with the job's values (pitch + 20)"));
  edit->setAccessibleName(QString::fromStdString(words.label));
  edit->installEventFilter(this);
  connect(edit, &QLineEdit::textEdited, this,
          [this, pointer, text, is_name](const QString& words_typed) { typed(pointer, text, is_name, words_typed); });
  connect(edit, &QLineEdit::editingFinished, this, [this] {
    if (on_leave) on_leave();
  });
  Field& field = fields_[pointer];
  field.edit = edit;
  field.trouble = trouble;
  if (!text) field.sum = sum_label();
  return list ? static_cast<QWidget*>(list) : edit;
}

void HandPanel::add_leaf(QFormLayout& form, const JsonValue& value, const std::string& key, const QString& label) {
  const FieldWords words = words_for(value, key);
  auto* name = new QLabel(label);
  name->setToolTip(QString::fromStdString(words.help));
  const std::string pointer = value.pointer();
  if (value.kind() == JsonKind::boolean) {
    auto* tick = new QCheckBox;
    tick->setChecked(value.boolean());
    tick->setToolTip(QString::fromStdString(words.help));
    tick->setAccessibleName(label);
    connect(tick, &QCheckBox::toggled, this, [this, pointer](bool on) {
      if (on_change) on_change(pointer, on ? "true" : "false");
      if (on_leave) on_leave();  // each tick is a step of its own
    });
    fields_[pointer].tick = tick;
    form.addRow(name, tick);
    return;
  }
  QLabel* trouble = trouble_label();
  QWidget* edit = make_edit(value, key, trouble);
  if (QLabel* sum = fields_[pointer].sum) {
    auto* row = new QHBoxLayout;
    row->setSpacing(5);
    row->addWidget(edit, 3);
    row->addWidget(sum, 0);
    form.addRow(name, row);
  } else {
    form.addRow(name, edit);
  }
  form.addRow(trouble);
}

// A place: its three fields over the whole breadth, with the direction and what it comes to under each.
void HandPanel::add_place(QFormLayout& form, const JsonValue& value, const std::string& key) {
  const FieldWords words = field_words(key);
  auto* name = new QLabel(QString::fromStdString(words.label));
  name->setToolTip(QString::fromStdString(words.help));
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(4);
  grid->setVerticalSpacing(1);
  QLabel* trouble = trouble_label();
  static const char* const kAxes[] = {"right", "back", "up"};
  int place = 0;
  for (JsonValue member = value.first(); member; member = member.next(), ++place) {
    QWidget* edit = make_edit(member, key == "joins" ? "name" : key, trouble);
    Field& field = fields_[member.pointer()];
    if (value.size() == 3 && key != "joins") {
      field.lead = kAxes[place];
      field.edit->setToolTip(
          QString("%1: along the site's %2\n%3")
              .arg(QString::fromStdString(words.label), kAxes[place], QString::fromStdString(words.help)));
      field.edit->setAccessibleName(QString::fromStdString(words.label) + " " + kAxes[place]);
    }
    grid->addWidget(edit, 0, place);
    if (field.sum) grid->addWidget(field.sum, 1, place);
    grid->setColumnStretch(place, 1);
  }
  form.addRow(name);
  form.addRow(grid);
  form.addRow(trouble);
}

}  // namespace halfhard
