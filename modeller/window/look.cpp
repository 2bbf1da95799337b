#include "modeller/window/look.h"

#include <QtWidgets>

namespace halfhard {

void dress_application(bool dark) {
  QApplication::setStyle("Fusion");
  QPalette palette;
  const QColor ground(dark ? 0x222A31 : 0xEEF2F4), field(dark ? 0x181F24 : 0xFFFFFF), ink(dark ? 0xEDF2F5 : 0x1A2329);
  const QColor chosen(dark ? 0x6BB6FF : 0x0B61C4), on_chosen(dark ? 0x0B1B2B : 0xFFFFFF),
      faint(dark ? 0x8B98A3 : 0x67747F);
  palette.setColor(QPalette::Window, ground);
  palette.setColor(QPalette::Base, field);
  palette.setColor(QPalette::AlternateBase, ground);
  palette.setColor(QPalette::Button, dark ? QColor(0x2E3841) : QColor(0xE0E6EA));
  palette.setColor(QPalette::ToolTipBase, field);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText})
    palette.setColor(role, ink);
  palette.setColor(QPalette::PlaceholderText, faint);
  palette.setColor(QPalette::Highlight, chosen);
  palette.setColor(QPalette::HighlightedText, on_chosen);
  palette.setColor(QPalette::Link, chosen);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    palette.setColor(QPalette::Disabled, role, faint);
  qApp->setPalette(palette);
  qApp->setStyleSheet(QString("QLineEdit[trouble=\"true\"] { border: 2px dashed %1; }"
                              "QLabel#trouble { font-weight: bold; }"
                              "QToolTip { color: %1; background: %2; border: 1px solid %1; }"
                              "QWidget:focus { outline: none; }"
                              "QPushButton:focus, QCheckBox:focus { border: 2px solid %3; }")
                          .arg(ink.name(), field.name(), chosen.name()));
}

}  // namespace halfhard
