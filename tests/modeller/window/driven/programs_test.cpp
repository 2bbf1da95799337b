// The window's program as a person starts it: what it says when it cannot open, and what it keeps when it is killed.
#include <X11/Xlib.h>
#include <X11/keysym.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <thread>

#include "tests/modeller/commands/run_program.h"

namespace halfhard {
namespace {

const std::string kSample = std::string(HALFHARD_SAMPLES) + "/basin-bank.json";

Said view(const std::vector<std::string>& words) {
  std::vector<std::string> all{"view"};
  all.insert(all.end(), words.begin(), words.end());
  return run_program("halfhard-window", all);
}

bool comes_true(const std::function<bool()>& what) {
  for (int i = 0; i < 600; ++i) {
    if (what()) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(25));
  }
  return false;
}

// A screen's windows and keys, as a person has them.
class Screen {
 public:
  Screen() : display_(XOpenDisplay(nullptr)) {}
  ~Screen() { XCloseDisplay(display_); }
  // The window whose title holds these words; 0 where there is none in sight.
  Window titled(const std::string& words) const {
    Window root = 0, parent = 0, *children = nullptr;
    unsigned count = 0;
    Window found = 0;
    XQueryTree(display_, DefaultRootWindow(display_), &root, &parent, &children, &count);
    for (unsigned i = 0; i < count; ++i) {
      char* name = nullptr;
      XWindowAttributes look{};
      if (XFetchName(display_, children[i], &name) && name && std::string(name).find(words) != std::string::npos &&
          XGetWindowAttributes(display_, children[i], &look) && look.map_state == IsViewable)
        found = children[i];
      if (name) XFree(name);
    }
    if (children) XFree(children);
    return found;
  }
  void press(Window window, KeySym key, unsigned modifiers) const {
    XSetInputFocus(display_, window, RevertToParent, CurrentTime);
    XSync(display_, False);
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    XKeyEvent event{};
    event.display = display_;
    event.window = window;
    event.root = DefaultRootWindow(display_);
    event.time = CurrentTime;
    event.same_screen = True;
    event.keycode = XKeysymToKeycode(display_, key);
    event.state = modifiers;
    for (const int type : {KeyPress, KeyRelease}) {
      event.type = type;
      XSendEvent(display_, window, True, type == KeyPress ? KeyPressMask : KeyReleaseMask,
                 reinterpret_cast<XEvent*>(&event));
    }
    XSync(display_, False);
  }

 private:
  Display* display_;
};

class Started {
 public:
  explicit Started(const std::string& job) : child_(fork()) {
    if (child_ != 0) return;
    const std::string program = std::string(HALFHARD_PROGRAMS) + "/halfhard-window";
    execl(program.c_str(), program.c_str(), "view", job.c_str(), static_cast<char*>(nullptr));
    _exit(127);
  }
  ~Started() { kill_at_once(); }
  void kill_at_once() {
    if (child_ <= 0) return;
    kill(child_, SIGKILL);
    waitpid(child_, nullptr, 0);
    child_ = 0;
  }

 private:
  pid_t child_;
};

TEST(WindowProgram, AnOverrideThatCannotBeUsedIsSaidInOneLine) {
  const Said malformed = view({kSample, "--set", "pitch"});
  EXPECT_EQ(malformed.status, 2);
  EXPECT_EQ(malformed.err, "halfhard: view: --set \"pitch\", allowed NAME=VALUE\n");
  const Said unknown = view({kSample, "--set", "pich=3"});
  EXPECT_EQ(unknown.status, 2);
  EXPECT_EQ(unknown.err.find("--set pich=3: "), 0u) << unknown.err;
  EXPECT_EQ(unknown.err.find('\n'), unknown.err.size() - 1);
}

TEST(WindowProgram, WithoutADisplayItSaysSoInOneLine) {
  const std::string display = std::getenv("DISPLAY");
  for (const char* nowhere : {"", ":4711"}) {
    setenv("DISPLAY", nowhere, 1);
    const Said said = view({kSample});
    EXPECT_EQ(said.status, 3);
    EXPECT_EQ(said.err, "halfhard: view: there is no display to open a window on; halfhard picture needs none\n");
  }
  setenv("DISPLAY", display.c_str(), 1);
}

TEST(WindowProgram, KilledAfterAnEditItOffersTheEditOnTheNextStartAndRestoresIt) {
  const auto folder = std::filesystem::temp_directory_path() / ("halfhard-killed-" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);
  const std::string job = (folder / "killed.json").string();
  std::filesystem::copy_file(kSample, job, std::filesystem::copy_options::overwrite_existing);
  const std::string before = text_of_file(job);
  const auto copy = folder / ".killed.json.unsaved";
  const Screen screen;
  {
    Started window(job);
    ASSERT_TRUE(comes_true([&] { return screen.titled("killed.json") != 0; }));
    screen.press(screen.titled("killed.json"), XK_n, ControlMask);  // adds a connection
    ASSERT_TRUE(comes_true([&] { return std::filesystem::exists(copy); }));
    window.kill_at_once();
  }
  EXPECT_EQ(text_of_file(job), before);
  ASSERT_NE(text_of_file(copy.string()).find("new connection"), std::string::npos);
  {
    Started window(job);
    ASSERT_TRUE(comes_true([&] { return screen.titled("Not saved last time") != 0; }));
    std::this_thread::sleep_for(std::chrono::milliseconds(600));
    EXPECT_TRUE(std::filesystem::exists(copy)) << "kept until the question is answered";
    screen.press(screen.titled("Not saved last time"), XK_Escape, 0);
    ASSERT_TRUE(comes_true([&] { return screen.titled("Not saved last time") == 0; }));
    std::this_thread::sleep_for(std::chrono::milliseconds(600));
    EXPECT_TRUE(std::filesystem::exists(copy)) << "Escape is no answer";
  }
  {
    Started window(job);
    ASSERT_TRUE(comes_true([&] { return screen.titled("Not saved last time") != 0; }));
    screen.press(screen.titled("Not saved last time"), XK_t, Mod1Mask);
    ASSERT_TRUE(comes_true([&] { return screen.titled("killed.json (not saved)") != 0; }));
    screen.press(screen.titled("killed.json"), XK_s, ControlMask);
    EXPECT_TRUE(comes_true([&] { return text_of_file(job).find("new connection") != std::string::npos; }));
    EXPECT_TRUE(comes_true([&] { return !std::filesystem::exists(copy); }));
  }
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace halfhard
