#include "modeller/window/measured_dialog.h"

#include <algorithm>

#include "modeller/job/json_patch.h"

namespace halfhard {

std::string member_if_typed(const char* key, const std::string& typed) {
  return typed.empty() ? "" : std::string(", \"") + key + "\": " + number_json(typed);
}

MeasuredDialog::MeasuredDialog(QWidget* parent, const QString& title, const QString& sentence, const QString& action)
    : QDialog(parent), answer_(new QPlainTextEdit) {
  setWindowTitle(title);
  auto* column = new QVBoxLayout(this);
  auto* words = new QLabel(sentence);
  words->setWordWrap(true);
  column->addWidget(words);
  auto* content = new QWidget;
  grid_ = new QGridLayout(content);
  grid_->setContentsMargins(0, 0, 6, 0);
  grid_->setAlignment(Qt::AlignTop);
  auto* area = new QScrollArea;
  area->setWidgetResizable(true);
  area->setFrameShape(QFrame::NoFrame);
  area->setWidget(content);
  column->addWidget(area, 3);
  answer_->setReadOnly(true);
  answer_->setAccessibleName("What follows from it");
  column->addWidget(answer_, 2);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
  action_ = buttons->addButton(action, QDialogButtonBox::ActionRole);
  for (QAbstractButton* button : buttons->buttons())  // Enter in a field is no answer to anything
    static_cast<QPushButton*>(button)->setAutoDefault(false);
  connect(action_, &QPushButton::clicked, this, [this] { act(); });
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  column->addWidget(buttons);
  resize(680, 560);
}

void MeasuredDialog::head(const QStringList& words) {
  ++row_;
  for (int column = 0; column < words.size(); ++column)
    grid_->addWidget(new QLabel("<b>" + words[column] + "</b>"), row_, column);
}

void MeasuredDialog::name_row(const QString& name) { grid_->addWidget(new QLabel(name), ++row_, 0); }

QLineEdit* MeasuredDialog::field(int column, const QString& planned, const QString& help) {
  auto* edit = new QLineEdit;
  edit->setPlaceholderText(planned);
  edit->setToolTip(help);
  edit->setAccessibleName(help);
  connect(edit, &QLineEdit::textEdited, this, [this] { work_out(); });
  grid_->addWidget(edit, row_, column);
  return edit;
}

bool MeasuredDialog::anything_typed() const {
  const auto fields = findChildren<QLineEdit*>();
  return std::any_of(fields.begin(), fields.end(), [](const QLineEdit* edit) { return !typed(edit).empty(); });
}

void MeasuredDialog::say(const std::string& words, bool may_act) {
  answer_->setPlainText(QString::fromStdString(words));
  action_->setEnabled(may_act);
}

}  // namespace halfhard
