#pragma once

#include "ui/asking/prompter.h"

class QWidget;

namespace gk::ui {

/// Modal Qt dialogs over `parent`, which must outlive this.
class QtPrompter final : public Prompter {
 public:
  explicit QtPrompter(QWidget* parent) : parent_(parent) {}

  bool confirm(const QString& question) override;
  std::optional<QString> text(const QString& question, const QString& suggestion) override;
  std::optional<QStringList> fill(const QString& question,
                                  const std::vector<FormLine>& lines) override;
  std::optional<int> choose(const QString& question, const QStringList& options) override;
  std::optional<int> decide(const QString& question, const QStringList& options) override;
  std::optional<int> decideBy(const reports::Table& table, const QString& question,
                              const QStringList& options) override;
  std::optional<QString> openFile(const QString& title, const QString& filter) override;
  std::optional<QString> saveFile(const QString& title, const QString& suggestion,
                                  const QString& filter, FileHolds holds) override;
  std::optional<QString> newFile(const QString& title, const QString& suggestion,
                                 const QString& filter, FileHolds holds) override;
  std::optional<QString> folder(const QString& title, FileHolds holds) override;
  std::shared_ptr<QPagedPaintDevice> printer() override;
  std::optional<QString> passphrase(const QString& question) override;
  std::optional<QString> pin(const QString& question) override;

 private:
  QWidget* parent_;
};

} // namespace gk::ui
