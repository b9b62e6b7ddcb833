#pragma once

#include <QFrame>

#include <vector>

class QGridLayout;
class QLabel;
class QPushButton;
class QScrollArea;
class QStackedWidget;

namespace gk::ui {

/// A key and what it does here.
struct KeyLine {
  QString key;
  QString words;
  bool isEverywhere = false; ///< of the window, and not of the page that is up
  bool operator==(const KeyLine&) const = default;
};

/// Every key that does something now in what is seen of `window`: shortcuts, keys of a bar,
/// letters of a field's words, and what a page tells by `tellKeys`.
std::vector<KeyLine> keysIn(const QWidget& window);

/// Over the pages: the keys of the page in one tab, help in the other. Any key that is not its own
/// closes it, and does nothing else but at the chair.
class HelpOverlay final : public QFrame {
  Q_OBJECT

 public:
  explicit HelpOverlay(QWidget* over);

  /// `place`: what the page is called. `passesKeys`: a key that closes it goes on to the page, as
  /// at the chair, where a timer may run.
  void open(const QString& place, const QString& help, bool passesKeys);
  [[nodiscard]] bool isOpen() const { return isVisible(); }
  void shut();

 Q_SIGNALS:
  /// The key that closed it, for the page.
  void passed(QKeyEvent* event);
  void closed();

 protected:
  bool event(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void showTab(int tab);
  void fill(const std::vector<KeyLine>& keys);

  QLabel* title_;
  QPushButton* keysTab_;
  QPushButton* helpTab_;
  QStackedWidget* stack_;
  QScrollArea* keysArea_;
  QScrollArea* helpArea_;
  QLabel* help_;
  bool passes_ = false;
};

} // namespace gk::ui
