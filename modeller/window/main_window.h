// The window: what the job holds on the left, the view in the middle with what comes out beneath it, the value under the
// hand and what is wrong on the right. Owns the document; every change goes through it.
#pragma once

#include <QtWidgets>

#include "modeller/window/document/document.h"
#include "modeller/window/document/new_steps.h"
#include "modeller/window/hand_panel.h"
#include "modeller/window/item_list.h"
#include "modeller/window/new_parts.h"
#include "modeller/window/result_panels.h"
#include "modeller/window/view_panel.h"
#include "viewer/draw_plan.h"

namespace halfhard {

class MainWindow : public QMainWindow {
 public:
  MainWindow(Document document, LoadOptions options, bool dark);
  ~MainWindow() override;

  Document& document() { return document_; }
  ViewPanel& view() { return *view_; }
  HandPanel& hand() { return *hand_; }
  ItemList& items() { return *items_; }
  FindingsPanel& findings() { return *findings_; }
  BendTablePanel& bends() { return *bends_; }
  void choose(const std::string& pointer, int bend = 0);
  void undo();
  void redo();
  bool save();
  bool save_as();
  void make_papers();
  void make_papers_in(const QString& folder);  // without asking; says in a box of its own when they are made
  // Asks about what an earlier run left beside the file.
  void offer_what_was_left();
  // Steps through the bends of the chosen pipe: 0 leaves; else bend `step`: turned, then pulled, as far as `part` of both.
  void show_bending(int step, double part);

 protected:
  void closeEvent(QCloseEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void build_panels();
  void build_menus();
  void build_view_menu();
  void build_job_menu();
  void build_go_to_menu(QMenu* view);
  void connect_panels();
  QAction* add(QMenu* menu, const QString& text, const QKeySequence& key, const QString& help,
               std::function<void()> does);
  void refresh();
  void redraw();
  std::string try_change(const std::string& pointer, const std::string& json);
  bool change(const std::optional<std::string>& text, const std::string& what);
  std::string why_not(const std::optional<std::string>& text, const std::string& what);
  std::string take_out(const std::string& pointer);
  void set_document(Document document);
  void look_at_disk();
  bool may_leave();
  void open_file();
  void new_from(const std::string& text);
  void add_pipe();
  void add_bank();
  void add_fixture();
  void add_body(const QString& name, const QString& file);
  void put_fixture(NewFixture kind, const std::string& name, const std::string& file);
  void add_connection();
  void add_step(NewStep step);
  void choose_to_edit(const std::string& pointer);
  void offer_instead(const QString& why, int how_many, const char* instead);
  void choose_last_of(const std::string& list);
  void add_value();
  void add_tube();
  void add_bender();
  void add_to_group(const std::string& group, const std::string& name, const std::string& json,
                    const std::string& what);
  bool find_ways();  // true where one was taken
  void prove();
  void calibrate_bender();
  void build_help_menu();
  void papers_made(const QString& folder, int status, const QString& out, const QString& trouble);
  void connect_moves();
  void build_move_menu(QMenu* job);
  double hand_step_mm() const;
  std::string drag_to(int axis, double by_mm);
  void move_by_key(int axis, double steps);
  std::string rename(const std::string& part, const std::string& name);
  std::string pointer_of(const Picked& picked) const;
  void fly_to_finding(int index);
  std::string pointer_to_part(std::string pointer) const;
  void picked(const Picked& picked);
  void set_dark(bool dark);
  void ask_section();
  const Run* chosen_run() const;
  const Run* shown_pipe();  // the chosen one, else the one before it: what the table and the slider are about
  void build_toolbar();
  void build_hands();
  void show_menu_for(const std::string& pointer, const QPoint& global);
  void edit_chosen();
  void take_out_chosen();
  void zoom_to_chosen();
  void copy_bend_table();
  void save_picture();
  void open_job(const QString& file);
  void remember_file(const QString& file);
  void fill_recent(QMenu* recent);
  LengthUnit unit() const { return document_.plan() ? document_.plan()->unit : LengthUnit::mm; }
  std::string chosen_name() const;

  Document document_;
  LoadOptions options_;
  bool dark_, asking_ = false;
  std::string chosen_, hovered_, last_pipe_;
  std::string end_before_;  // the connection chosen before the present one: where the next pipe starts
  int bend_ = 0, step_ = 0;
  PlanDrawer drawer_;
  std::shared_ptr<const JsonTree> held_text_;  // as it was when a part was taken hold of
  ItemList* items_ = nullptr;
  ViewPanel* view_ = nullptr;
  HandPanel* hand_ = nullptr;
  FindingsPanel* findings_ = nullptr;
  BendTablePanel* bends_ = nullptr;
  QSlider* bending_ = nullptr;
  QLabel* bending_words_ = nullptr;
  QAction *undo_ = nullptr, *redo_ = nullptr;
  std::map<std::string, QAction*> actions_;  // by what they are called, without marks
  QTimer autosave_, disk_;
  QProcess* making_ = nullptr;  // the papers, while they are being made
};

}  // namespace halfhard
