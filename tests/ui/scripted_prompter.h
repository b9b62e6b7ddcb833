#pragma once

#include "ui/support/prompter.h"

#include <QBuffer>
#include <QPdfWriter>

#include <deque>
#include <vector>

namespace gk::test {

/// Answers from a script and keeps what was asked; backs out when the script is at its end.
class ScriptedPrompter final : public ui::Prompter {
 public:
  std::deque<bool> confirms;
  std::deque<QString> texts;
  std::deque<QString> pins;
  std::deque<int> choices;
  std::deque<QString> files;
  std::deque<bool> prints;
  QByteArray printed; ///< what came out of the printer last, a PDF
  QStringList asked;
  std::vector<reports::Table> shown; ///< tables to decide by
  std::vector<QStringList> offered;  ///< the answers beside them
  QStringList decided;               ///< of those, with nothing chosen beforehand

  bool confirm(const QString& question) override {
    asked += question;
    return next(confirms).value_or(false);
  }
  std::optional<QString> text(const QString& question, const QString&) override {
    asked += question;
    return next(texts);
  }
  std::optional<int> choose(const QString& question, const QStringList&) override {
    asked += question;
    return next(choices);
  }
  std::optional<int> decide(const QString& question, const QStringList& options) override {
    decided += question;
    return choose(question, options);
  }
  std::optional<int> decideBy(const reports::Table& table, const QString& question,
                              const QStringList& options) override {
    shown.push_back(table);
    offered.push_back(options);
    return decide(question, options);
  }
  std::optional<QString> openFile(const QString& title, const QString&) override {
    asked += title;
    return next(files);
  }
  std::optional<QString> saveFile(const QString& title, const QString&, const QString&) override {
    asked += title;
    return next(files);
  }
  std::optional<QString> newFile(const QString& title, const QString& suggestion,
                                 const QString& filter) override {
    return saveFile(title, suggestion, filter);
  }
  std::optional<QString> folder(const QString& title) override {
    asked += title;
    return next(files);
  }
  std::shared_ptr<QPagedPaintDevice> printer() override {
    if (!next(prints).value_or(false)) return nullptr;
    struct Paper {
      explicit Paper(QByteArray& into) : buffer(&into) { buffer.open(QIODevice::WriteOnly); }
      QBuffer buffer;
      QPdfWriter writer{&buffer};
    };
    const auto paper = std::make_shared<Paper>(printed);
    return {paper, &paper->writer};
  }
  std::optional<QString> passphrase(const QString& question) override {
    asked += question;
    return next(texts);
  }
  std::optional<QString> pin(const QString& question) override {
    asked += question;
    return next(pins);
  }

 private:
  template <class T>
  std::optional<T> next(std::deque<T>& script) {
    if (script.empty()) return std::nullopt;
    auto answer = script.front();
    script.pop_front();
    return answer;
  }
};

} // namespace gk::test
