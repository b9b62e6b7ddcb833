#pragma once

#include <QString>
#include <QWidget>

#include <vector>

namespace gk::ui {

/// One caution, short enough to be read between two children.
struct Caution {
  QString title;
  QString words;
};

/// In the order of the practice manual; each ends with the same sentence about who comes first.
const std::vector<Caution>& cautions();

/// All cautions, one at a time.
class CautionsPage final : public QWidget {
  Q_OBJECT

 public:
  explicit CautionsPage(QWidget* parent);
};

} // namespace gk::ui
