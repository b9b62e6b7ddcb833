#include "base/files/files.h"
#include "base/files/machine.h"
#include "demo.h"
#include "ui/asking/qt_prompter.h"
#include "ui/look/look.h"
#include "ui/support/laptop.h"
#include "ui/support/message.h"
#include "ui/support/speaker.h"
#include "ui/support/text.h"
#include "ui/windows/book_view.h"
#include "ui/windows/main_window.h"

#include <QApplication>
#include <QCommandLineParser>
#include <QStandardPaths>
#include <QTimer>

#include <cstdlib>
#include <iostream>

using namespace gk;
using namespace gk::ui;

namespace {

int refuse(const base::Error& error) {
  std::cerr << toStd(inOneLine(describe(error))) << '\n';
  return 1;
}

/// Made once; what is tried in it is still there the next time.
base::Result<DemoBook> demoIn(const base::Path& folder) {
  const DemoBook book{folder / "demo.gkbook", demo::passphrase};
  // A logbook without its passphrase is one whose making was broken off.
  std::error_code unread;
  if (std::filesystem::exists(book.path, unread) &&
      std::filesystem::exists(folder / "passphrase.txt", unread))
    return book;
  if (const auto built = demo::buildDemo(folder, demo::Until::partDay); !built)
    return built.error();
  return book;
}

} // namespace

int main(int argc, char** argv) {
  const QApplication application(argc, argv);
  QApplication::setApplicationName(u"groovekeeper"_s);
  dress();
  QCommandLineParser parser;
  parser.setApplicationDescription(u"The logbook for school sealant days."_s);
  parser.addHelpOption();
  parser.addPositionalArgument(u"FILE"_s, u"The logbook to open."_s, u"[FILE]"_s);
  const QCommandLineOption passphraseFile(u"passphrase-file"_s,
                                          u"Unlock with the first line of this file."_s, u"F"_s);
  parser.addOption(passphraseFile);
  QCommandLineOption untilPainted(u"until-painted"_s);
  untilPainted.setFlags(
      QCommandLineOption::HiddenFromHelp); // for timing a start: tests/bench/start
  parser.addOption(untilPainted);
  parser.process(application);

  base::SystemClock clock;
  base::SystemRandom random;
  const base::Path folder =
      toStd(QStandardPaths::writableLocation(QStandardPaths::AppConfigLocation));

  DeviceSpeaker speaker;
  MainWindow window({.clock = clock,
                     .random = random,
                     .laptop = {folder, base::thisMachine(), random},
                     .folder = folder,
                     .speaker = &speaker,
                     .demo = demoIn},
                    [](QWidget* over) { return std::make_unique<QtPrompter>(over); });
  window.show();
  const auto files = parser.positionalArguments();
  if (!files.isEmpty()) window.openBook(files.front());
  if (window.book() && parser.isSet(passphraseFile)) {
    const auto line = base::readFirstLine(toStd(parser.value(passphraseFile)));
    if (!line) return refuse(line.error());
    window.book()->unlock(toQt(*line));
  }
  if (parser.isSet(untilPainted))
    QTimer::singleShot(0, &window, [&] {
      window.repaint();
      std::quick_exit(EXIT_SUCCESS); // closing the book is no part of the start
    });
  return QApplication::exec();
}
