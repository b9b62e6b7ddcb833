#pragma once

#include "reports/print/table.h"

#include <QString>
#include <QStringList>

#include <memory>
#include <optional>
#include <vector>

class QPagedPaintDevice;

namespace gk::ui {

/// What is in a file that a person is asked a place for. Names, where they are, are sealed in a
/// logbook, an envelope and sealed papers.
enum class FileHolds { noNames, sealedNames, names };

/// Said before names lie in a file that anyone can read, wherever one is saved.
inline const QString plainFileWords =
    QStringLiteral("Not sealed. Anyone who has the file can read the names in it");

/// Dialogs, behind an interface so that tests answer them. Empty means that the person backed out.
/// The chair page asks in its own line instead, since nothing may cover its timer.
class Prompter {
 public:
  virtual ~Prompter() = default;

  virtual bool confirm(const QString& question) = 0;
  virtual std::optional<QString> text(const QString& question, const QString& suggestion) = 0;
  /// A field of a form, and what stands in it.
  struct FormLine {
    QString words;
    QString standing;
  };
  /// What is in the fields, in their order, all asked at once. Precondition: at least one.
  virtual std::optional<QStringList> fill(const QString& question,
                                          const std::vector<FormLine>& lines) = 0;
  /// The place of the option chosen, from 0. Precondition: at least one option.
  virtual std::optional<int> choose(const QString& question, const QStringList& options) = 0;
  /// As `choose`, but nothing is chosen beforehand, so that Enter in haste answers nothing.
  virtual std::optional<int> decide(const QString& question, const QStringList& options) = 0;
  /// As `decide`, with a table in sight to decide by; rows whose first cell is filled stand out.
  virtual std::optional<int> decideBy(const reports::Table& table, const QString& question,
                                      const QStringList& options) = 0;
  /// `filter` as QFileDialog has it: "Roster (*.csv)".
  virtual std::optional<QString> openFile(const QString& title, const QString& filter) = 0;
  virtual std::optional<QString> saveFile(const QString& title, const QString& suggestion,
                                          const QString& filter, FileHolds holds) = 0;
  /// As `saveFile`, for what never takes the place of another file: a name that is taken is not
  /// asked about, since the caller takes the next free one.
  virtual std::optional<QString> newFile(const QString& title, const QString& suggestion,
                                         const QString& filter, FileHolds holds) = 0;
  virtual std::optional<QString> folder(const QString& title, FileHolds holds) = 0;
  /// A printer that the person chooses, whose pages come out when it goes; none when backed out.
  virtual std::shared_ptr<QPagedPaintDevice> printer() = 0;
  /// Shown as dots.
  virtual std::optional<QString> passphrase(const QString& question) = 0;
  /// Shown as dots, with keys for a gloved finger.
  virtual std::optional<QString> pin(const QString& question) = 0;

 protected:
  /// What the dialog says.
  static QString titleOf(const QString& title, FileHolds holds) {
    return holds == FileHolds::names ? title + QStringLiteral(". ") + plainFileWords : title;
  }
};

} // namespace gk::ui
