#pragma once

#include <QStringList>
#include <QWidget>

#include <vector>

namespace gk::ui {

class FlowLayout;

/// What is chosen, one chip each; pressing a chip takes its choice away. Not there when nothing is.
class FilterChips final : public QWidget {
  Q_OBJECT

 public:
  explicit FilterChips(QWidget* parent);

  struct Chip {
    QString words; ///< "School: Alder Hollow Elementary"
    int filter;    ///< what `removed` is told
  };
  void show(const std::vector<Chip>& chips);

 Q_SIGNALS:
  void removed(int filter);

 private:
  FlowLayout* row_;
  QStringList shown_;
};

} // namespace gk::ui
