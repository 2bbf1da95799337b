// A dialog of figures that were measured at the bench, and below them what follows from them, said as they are typed.
#pragma once

#include <QtWidgets>
#include <string>

namespace halfhard {

class MeasuredDialog : public QDialog {
 public:
  QString answer() const { return answer_->toPlainText(); }

 protected:
  // `action`: what the button beside Close says; it is for what has been typed.
  MeasuredDialog(QWidget* parent, const QString& title, const QString& sentence, const QString& action);

  QGridLayout& grid() { return *grid_; }
  void head(const QStringList& words);  // a row of headings
  // A field at `column` of the last row; 0 begins a row, with a name.
  void name_row(const QString& name);
  QLineEdit* field(int column, const QString& planned, const QString& help);
  bool anything_typed() const;
  void say(const std::string& words, bool may_act);
  static std::string typed(const QLineEdit* edit) { return edit->text().trimmed().toStdString(); }

  virtual void work_out() = 0;  // whenever something is typed
  virtual void act() = 0;       // the button was pressed

 private:
  QGridLayout* grid_;
  QPlainTextEdit* answer_;
  QPushButton* action_;
  int row_ = 0;
};

// Member of a JSON group, with a comma before it; nothing where nothing was typed.
std::string member_if_typed(const char* key, const std::string& typed);

}  // namespace halfhard
