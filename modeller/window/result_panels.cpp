#include "modeller/window/result_panels.h"

#include <algorithm>

#include "geometry/words/alike_findings.h"
#include "geometry/words/shown.h"

namespace halfhard {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

struct Column {
  const char* head;
  const char* help;
};
constexpr Column kColumns[] = {
    {"Bend", "Number of the bend from the start end, as in the view"},
    {"Made", "Its place in the order made"},
    {"Hook", "Which end of the tube lies behind the hook"},
    {"Mark", "From the tube's start end to the mark, on the straight tube, spare and insertion included"},
    {"From last bend",
     "The same mark, from the back of the bend made before on the hook side; from the tube's end for the first"},
    {"Pull to", "What to pull to, so that the finished angle is left after letting go"},
    {"Finished", "What the finished bend is to be"},
    {"Turn", "How far round from the bend before this one goes, right-handed looking along the tube"},
    {"Straight before", "Straight tube between this bend and the one before"},
};
constexpr int kMark = 3, kPullTo = 5, kRowsABend = 2;  // the figures, and the check beneath them

constexpr int kFindingRole = Qt::UserRole, kPlaceRole = Qt::UserRole + 1;

// As rich text, which is the only kind that help at the cursor wraps.
QString wrapped(const QString& help) { return "<qt>" + help.toHtmlEscaped().replace("\n", "<br>") + "</qt>"; }

QString cell(const Bend& bend, int column, LengthUnit unit) {
  switch (column) {
    case 0:
      return QString::number(bend.number);
    case 1:
      return QString::number(bend.made);
    case 2:
      return bend.hook == End::datum ? "start end" : "far end";
    case kMark:
      return text(shown_length_bare(bend.mark_mm, unit));
    case 4:
      return text(shown_length_bare(bend.mark_from_outside_mm, unit));
    case kPullTo:
      return text(shown_angle(bend.set_angle));
    case 6:
      return text(shown_angle(bend.angle));
    case 7:
      return bend.number == 1 ? QString("first") : text(shown_angle(bend.rotation));
    default:
      return text(shown_length_bare(bend.straight_before_mm, unit));
  }
}

QString check_of(const Bend& bend, LengthUnit unit) {
  if (bend.check.text.empty()) return "no tape can check this bend: use an angle gauge";
  return "check " + text(shown_length_bare(bend.check.mm, unit) + " \u00B1" +
                         shown_length_bare(bend.check.tolerance_mm, unit) + " " + bend.check.text);
}

}  // namespace

QIcon severity_sign(Severity severity, const QColor& ink) {
  QPixmap map(32, 32);
  map.fill(Qt::transparent);
  QPainter painter(&map);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(ink, 2.5));
  if (severity == Severity::fail) {
    painter.setPen(QPen(Qt::black, 2));
    painter.setBrush(QColor(0xFF, 0xD5, 0x00));
    painter.drawPolygon(QPolygon({QPoint(16, 2), QPoint(31, 29), QPoint(1, 29)}));
    painter.fillRect(14, 11, 4, 10, Qt::black);
    painter.fillRect(14, 23, 4, 4, Qt::black);
  } else if (severity == Severity::warn) {
    painter.drawPolygon(QPolygon({QPoint(16, 3), QPoint(29, 16), QPoint(16, 29), QPoint(3, 16)}));
    painter.fillRect(14, 11, 4, 7, ink);
    painter.fillRect(14, 20, 4, 3, ink);
  } else {
    painter.drawEllipse(6, 6, 20, 20);
  }
  return QIcon(map);
}

BendTablePanel::BendTablePanel(QWidget* parent)
    : QWidget(parent), summary_(new QLabel), table_(new QTableWidget(0, static_cast<int>(std::size(kColumns)))) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(6, 4, 6, 4);
  column->setSpacing(3);
  summary_->setWordWrap(true);
  column->addWidget(summary_);
  column->addWidget(table_);
  for (int i = 0; i < table_->columnCount(); ++i) {
    auto* head = new QTableWidgetItem(kColumns[i].head);
    head->setToolTip(kColumns[i].help);
    table_->setHorizontalHeaderItem(i, head);
  }
  table_->verticalHeader()->hide();
  table_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  table_->verticalHeader()->setMinimumSectionSize(18);
  table_->setShowGrid(false);
  table_->horizontalHeader()->setStretchLastSection(true);
  table_->horizontalHeader()->setHighlightSections(false);  // bold heads would change the columns' widths
  table_->setWordWrap(true);
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table_->setAccessibleName("Bend table");
  connect(table_, &QTableWidget::itemSelectionChanged, this, [this] {
    if (!quiet_ && on_choose && chosen() > 0) on_choose(chosen());
  });
}

void BendTablePanel::show(const Plan& plan, const Run* run) {
  quiet_ = true;
  const int before = chosen();
  table_->setRowCount(run ? kRowsABend * static_cast<int>(run->bends.size()) : 0);
  if (!run) {
    summary_->setText("<b>Bend table.</b> Pick a pipe to see it.");
    quiet_ = false;
    return;
  }
  const QString unit = plan.unit == LengthUnit::mm ? "mm" : "inches";
  const bool spare = run->blank_length_mm > run->cut_length_mm + 1e-9;
  summary_->setText(QString("<b>%1</b>%2: <b>cut the tube to %3</b>%4, %5 kg, holds %6 litres. Lengths in %7.%8")
                        .arg(text(run->name).toHtmlEscaped(),
                             run->tube ? ", " + text(run->tube->name).toHtmlEscaped() : "",
                             text(shown_length(spare ? run->blank_length_mm : run->cut_length_mm, plan.unit)),
                             spare ? ", trimmed last to " + text(shown_length(run->cut_length_mm, plan.unit)) : "",
                             text(shown_number(run->mass_kg, 2)), text(shown_number(run->contents_l, 2)), unit,
                             plan.failure_of(*run) ? " <b>\u26A0 NOT TO BE MADE</b>" : ""));
  for (size_t i = 0; i < run->bends.size(); ++i) fill_bend(static_cast<int>(i), run->bends[i], plan.unit);
  fit_columns();
  choose(before);
  quiet_ = false;
}

// By the figures and their heads; the checks run across all columns.
void BendTablePanel::fit_columns() {
  for (int column = 0; column < table_->columnCount(); ++column) {
    int breadth = table_->horizontalHeader()->fontMetrics().horizontalAdvance(kColumns[column].head);
    for (int row = 0; row < table_->rowCount(); row += kRowsABend) {
      const QTableWidgetItem* item = table_->item(row, column);
      breadth = std::max(breadth, QFontMetrics(item->font()).horizontalAdvance(item->text()));
    }
    table_->setColumnWidth(column, breadth + 18);
  }
  for (int row = 0; row + 1 < table_->rowCount(); row += kRowsABend) {
    table_->setRowHeight(row, QFontMetrics(table_->item(row, kMark)->font()).height() + 6);
    const QTableWidgetItem* check = table_->item(row + 1, 0);
    const QRect room(0, 0, std::max(100, table_->viewport()->width() - 12), 10000);
    const QFontMetrics letters(table_->font());
    table_->setRowHeight(row + 1, letters.boundingRect(room, Qt::TextWordWrap, check->text()).height() + 6);
  }
}

void BendTablePanel::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  fit_columns();
}

void BendTablePanel::fill_bend(int bend, const Bend& of, LengthUnit unit) {
  const int row = kRowsABend * bend;
  QFont large = table_->font();
  large.setPointSizeF(1.25 * large.pointSizeF());
  large.setBold(true);
  for (int column = 0; column < table_->columnCount(); ++column) {
    auto* item = new QTableWidgetItem(cell(of, column, unit));
    item->setToolTip(kColumns[column].help);
    item->setTextAlignment((column == 2 ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
    if (column == kMark || column == kPullTo) item->setFont(large);
    table_->setItem(row, column, item);
  }
  auto* check = new QTableWidgetItem(check_of(of, unit));
  check->setToolTip(wrapped(check->text()));
  table_->setItem(row + 1, 0, check);
  if (table_->columnSpan(row + 1, 0) != table_->columnCount()) table_->setSpan(row + 1, 0, 1, table_->columnCount());
}

void BendTablePanel::choose(int bend) {
  const bool was = quiet_;
  quiet_ = true;
  if (bend >= 1 && kRowsABend * bend <= table_->rowCount())
    table_->selectRow(kRowsABend * (bend - 1));
  else
    table_->clearSelection();
  quiet_ = was;
}

int BendTablePanel::chosen() const {
  const auto rows = table_->selectionModel()->selectedRows();
  return rows.isEmpty() ? 0 : rows[0].row() / kRowsABend + 1;
}

// As other programs take it: the heads, then a line a bend with its check last, parted by tabs.
QString BendTablePanel::as_text() const {
  QString all;
  for (int column = 0; column < table_->columnCount(); ++column) all += QString(kColumns[column].head) + "\t";
  all += "Proved by\n";
  for (int row = 0; row + 1 < table_->rowCount(); row += kRowsABend) {
    for (int column = 0; column < table_->columnCount(); ++column) all += table_->item(row, column)->text() + "\t";
    all += table_->item(row + 1, 0)->text() + "\n";
  }
  return all;
}

FindingsPanel::FindingsPanel(QWidget* parent) : QWidget(parent), head_(new QLabel), list_(new QListWidget) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(6, 4, 6, 4);
  column->setSpacing(3);
  head_->setWordWrap(true);
  column->addWidget(head_);
  column->addWidget(list_);
  list_->setWordWrap(true);
  list_->setIconSize(QSize(18, 18));
  list_->setAccessibleName("Findings");
  list_->setToolTip("What fails, what to mind, what to know; pick a line to fly to it");
  const auto chosen = [this](QListWidgetItem* item) {
    if (!item) return;
    const QVariant finding = item->data(kFindingRole), place = item->data(kPlaceRole);
    if (on_choose && finding.isValid()) on_choose(finding.toInt());
    if (on_choose_problem && place.isValid()) on_choose_problem(place.toString().toStdString());
  };
  connect(list_, &QListWidget::itemClicked, this, chosen);
  connect(list_, &QListWidget::itemActivated, this, chosen);
}

void FindingsPanel::show(const Plan& plan) {
  list_->clear();
  int counts[3] = {0, 0, 0};
  const QColor ink = palette().text().color();
  for (const Severity severity : {Severity::fail, Severity::warn, Severity::note}) {
    for (const auto& group : alike_findings(plan.findings, severity)) {
      const Finding& finding = *group.front();
      ++counts[static_cast<int>(severity)];
      auto* item = new QListWidgetItem(severity_sign(severity, ink),
                                       QString("%1: %2").arg(spoken_severity(severity), text(told(group))), list_);
      item->setData(kFindingRole, static_cast<int>(group.front() - plan.findings.data()));
      QString help = text(finding.message);
      if (!finding.source.empty()) help += "\nFrom: " + text(finding.source);
      item->setToolTip(wrapped(help));
    }
  }
  const QString failing =
      counts[0] ? QString("<b>\u26A0 %1 failing</b>").arg(counts[0]) : QString("<b>Nothing fails</b>");
  head_->setText(QString("<b>What is wrong.</b> %1, %2 to mind, %3 %4")
                     .arg(failing)
                     .arg(counts[1])
                     .arg(counts[2])
                     .arg(counts[2] == 1 ? "note" : "notes"));
}

void FindingsPanel::show_problems(const std::vector<JobProblem>& problems, bool has_picture) {
  if (problems.empty()) return;
  list_->clear();
  head_->setText(QString("<b>\u26A0 The job's text cannot be used.</b> ") +
                 (has_picture ? "The view shows the last text that could."
                              : "Put it right here or in the file: what is saved there is taken up."));
  for (const JobProblem& problem : problems)
    (new QListWidgetItem(severity_sign(Severity::fail, Qt::black), text(problem.shown()), list_))
        ->setData(kPlaceRole, text(problem.pointer));
}

}  // namespace halfhard
