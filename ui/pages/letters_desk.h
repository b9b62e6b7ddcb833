#pragma once

#include "session/letters.h"
#include "ui/support/context.h"

#include <QString>

#include <functional>
#include <optional>
#include <vector>

namespace gk::ui {

/// What the close-out's "Letters" key does for one day: prints all that is due, prints one again,
/// notes what was handed over or came back, and prints the nurse's sheets.
class LettersDesk {
 public:
  LettersDesk(Context& context, roster::DayId day) : context_(context), day_(day) {}

  /// Asks what to do; `chosen` is the child on whose line the person stands. Gives what to say
  /// afterwards, empty when backed out. What was not printed is not noted as printed. Fails as
  /// session::readyLetters and base::replaceFile.
  base::Result<QString> work(std::optional<roster::ChildId> chosen);

 private:
  using Letters = std::vector<session::ReadyLetter>;
  using Paint = std::function<void(QPagedPaintDevice&)>;

  [[nodiscard]] Letters due() const;
  [[nodiscard]] Letters of(std::optional<roster::ChildId> child) const;
  /// Onto a printer or into a file; whether it came out.
  base::Result<bool> putOut(const QString& name, bool onPaper, const Paint& paint);
  base::Result<QString> printDue(bool onPaper);
  base::Result<QString> printAgain(const Letters& letters);
  base::Result<QString> note(const Letters& letters, followup::LetterState to);
  /// Also a letter of the child's that is not due any more.
  base::Result<QString> noteReturned(std::optional<roster::ChildId> child);
  base::Result<QString> move(const std::vector<base::Recorded<followup::Letter>>& letters,
                             followup::LetterState to);
  base::Result<QString> printForms(bool onPaper);
  [[nodiscard]] PaperSize paper() const { return context_.acting.habits().paper; }

  Context& context_;
  roster::DayId day_;
  Letters all_;
  std::vector<reports::UrgentForm> forms_;
};

} // namespace gk::ui
