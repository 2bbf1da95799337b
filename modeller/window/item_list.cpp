#include "modeller/window/item_list.h"

#include <map>

#include "modeller/window/field_words.h"

namespace halfhard {
namespace {

constexpr int kPointer = Qt::UserRole;

QString shown(std::string_view text) { return QString::fromUtf8(text.data(), static_cast<int>(text.size())); }

// A value in a few words: "150", "right pitch".
std::string brief(const JsonValue& value) {
  switch (value.kind()) {
    case JsonKind::text:
      return std::string(value.text());
    case JsonKind::group: {
      std::string words;
      for (JsonValue member = value.first(); member; member = member.next())
        words += (words.empty() ? "" : ", ") + std::string(member.key()) + " " + brief(member);
      return words;
    }
    default:
      return std::string(value.raw());
  }
}

QString step_text(const JsonValue& step) {
  std::vector<std::pair<std::string, std::string>> members;
  if (step.kind() == JsonKind::group)
    for (JsonValue member = step.first(); member; member = member.next())
      members.emplace_back(std::string(member.key()), brief(member));
  return QString::fromStdString(step_words(members));
}

QString name_of(const JsonValue& part, const char* key) {
  const JsonValue name = part.kind() == JsonKind::group ? part.find(key) : JsonValue();
  return name && name.kind() == JsonKind::text ? shown(name.text()) : QString("without a name");
}

void each_line(QTreeWidgetItem* item, const std::function<void(QTreeWidgetItem*)>& visit) {
  for (int i = 0; i < item->childCount(); ++i) {
    visit(item->child(i));
    each_line(item->child(i), visit);
  }
}

}  // namespace

ItemList::ItemList(QWidget* parent) : QTreeWidget(parent) {
  setHeaderHidden(true);
  setIndentation(14);
  setAccessibleName("What the job holds");
  setToolTip("What the job holds: pick a line to have its values under your hand");
  setContextMenuPolicy(Qt::CustomContextMenu);
  connect(this, &QTreeWidget::customContextMenuRequested, this, [this](const QPoint& at) {
    if (const QTreeWidgetItem* item = itemAt(at); item && on_menu)
      on_menu(item->data(0, kPointer).toString().toStdString(), viewport()->mapToGlobal(at));
  });
  setExpandsOnDoubleClick(false);
  connect(this, &QTreeWidget::itemActivated, this, [this] {
    if (on_edit) on_edit();
  });
  connect(this, &QTreeWidget::currentItemChanged, this, [this](QTreeWidgetItem* now, QTreeWidgetItem*) {
    if (!quiet_ && now && on_choose) on_choose(now->data(0, kPointer).toString().toStdString());
  });
}

QTreeWidgetItem* ItemList::add(QTreeWidgetItem* parent, const QString& text, const std::string& pointer) {
  auto* item = parent ? new QTreeWidgetItem(parent) : new QTreeWidgetItem(this);
  item->setText(0, text);
  item->setToolTip(0, text);
  item->setData(0, kPointer, QString::fromStdString(pointer));
  if (!parent) {
    QFont font = item->font(0);
    font.setBold(true);
    item->setFont(0, font);
  }
  item->setExpanded(true);
  return item;
}

void ItemList::add_runs(const JsonValue& runs) {
  auto* group = add(nullptr, "Pipes", "/runs");
  for (JsonValue run = runs.first(); run; run = run.next()) {
    auto* line = add(group, name_of(run, "name"), run.pointer());
    const JsonValue path = run.kind() == JsonKind::group ? run.find("path") : JsonValue();
    if (!path || path.kind() != JsonKind::list) continue;
    int number = 0;
    for (JsonValue step = path.first(); step; step = step.next())
      add(line, QString("%1. %2").arg(++number).arg(step_text(step)), step.pointer());
  }
}

void ItemList::show(const JsonTree& tree) {
  const JsonValue root = tree.root();
  if (!root || root.kind() != JsonKind::group) return;  // the last that could be read stays
  const std::string chosen_before = chosen();
  std::map<QString, bool> open;
  each_line(invisibleRootItem(),
            [&](QTreeWidgetItem* item) { open[item->data(0, kPointer).toString()] = item->isExpanded(); });
  const int scrolled = verticalScrollBar()->value();
  quiet_ = true;
  clear();
  add(nullptr, "Job", "");
  const auto named = [&](const char* key, const QString& title, const char* name_key) {
    const JsonValue parts = root.find(key);
    if (!parts || parts.size() == 0) return;
    auto* group = add(nullptr, title, parts.pointer());
    for (JsonValue part = parts.first(); part; part = part.next())
      add(group, parts.kind() == JsonKind::group ? shown(part.key()) : name_of(part, name_key), part.pointer());
  };
  if (const JsonValue runs = root.find("runs"); runs && runs.kind() == JsonKind::list) add_runs(runs);
  named("connections", "Connections", "name");
  named("fixtures", "Fixtures", "name");
  if (const JsonValue values = root.find("values"); values && values.size() > 0) {
    auto* group = add(nullptr, "Values", values.pointer());
    for (JsonValue value = values.first(); value; value = value.next())
      add(group, shown(value.key()) + "  " + QString::fromStdString(brief(value)), value.pointer());
  }
  named("banks", "Banks", "of");
  named("tubes", "Tubes", "name");
  named("benders", "Benders", "name");
  each_line(invisibleRootItem(), [&](QTreeWidgetItem* item) {
    const auto was = open.find(item->data(0, kPointer).toString());
    if (was != open.end()) item->setExpanded(was->second);
  });
  choose(chosen_before);
  verticalScrollBar()->setValue(scrolled);
  quiet_ = false;
}

void ItemList::choose(const std::string& pointer) {
  const bool was = quiet_;
  quiet_ = true;
  each_line(invisibleRootItem(), [&](QTreeWidgetItem* item) {
    if (item->data(0, kPointer).toString().toStdString() == pointer) setCurrentItem(item);
  });
  quiet_ = was;
}

bool ItemList::has(const std::string& pointer) const {
  bool found = false;
  each_line(invisibleRootItem(), [&](QTreeWidgetItem* item) {
    found = found || item->data(0, kPointer).toString().toStdString() == pointer;
  });
  return found;
}

std::string ItemList::chosen() const {
  return currentItem() ? currentItem()->data(0, kPointer).toString().toStdString() : "";
}

}  // namespace halfhard
