#pragma once

#include "session/letters/letters.h"
#include "ui/asking/context.h"

#include <QString>

#include <functional>
#include <memory>
#include <optional>
#include <vector>

class QPagedPaintDevice;

namespace gk::ui {

/// What the close-out's "Letters" key does for one day: prints all that is due, prints one again,
/// notes what was handed over or came back, and prints the nurse's sheets.
class LettersDesk : public std::enable_shared_from_this<LettersDesk> {
 public:
  /// Given what to say afterwards, empty when backed out.
  using Done = std::function<void(const base::Result<QString>&)>;

  /// The pages are long work of `owner`.
  LettersDesk(Context& context, QObject* owner, roster::DayId day)
      : context_(context), owner_(owner), day_(day) {}

  /// Asks what to do; `chosen` is the child on whose line the person stands. What was not printed
  /// is not noted as printed. Fails as session::readyLetters and base::replaceFile.
  void work(std::optional<roster::ChildId> chosen, const Done& done);

 private:
  using Letters = std::vector<session::ReadyLetter>;
  using Paint = std::function<void(QPagedPaintDevice&, const base::Progress&)>;
  using Out = std::function<base::Result<QString>()>;

  [[nodiscard]] Letters due() const;
  [[nodiscard]] Letters of(std::optional<roster::ChildId> child) const;
  /// Onto a printer or into a file; `out` says and notes that it came out.
  void putOut(const QString& name, bool onPaper, const Paint& paint, const QString& backedOut,
              Out out, const Done& done);
  void printDue(bool onPaper, const Done& done);
  void printAgain(const Letters& letters, const Done& done);
  base::Result<QString> note(const Letters& letters, followup::LetterState to);
  /// Also a letter of the child's that is not due any more.
  base::Result<QString> noteReturned(std::optional<roster::ChildId> child);
  base::Result<QString> move(const std::vector<base::Recorded<followup::Letter>>& letters,
                             followup::LetterState to);
  void printForms(bool onPaper, const Done& done);
  [[nodiscard]] PaperSize paper() const { return context_.acting.habits().paper; }

  Context& context_;
  QObject* owner_;
  roster::DayId day_;
  Letters all_;
  std::vector<reports::UrgentForm> forms_;
};

} // namespace gk::ui
