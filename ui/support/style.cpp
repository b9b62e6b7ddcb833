#include "ui/support/style.h"

#include "base/contract.h"

#include <QEvent>
#include <QWidget>

#include <utility>

namespace gk::ui::style {

namespace {

/// Lives with the widget whose look it watches.
class Refit final : public QObject {
 public:
  Refit(QWidget* widget, std::function<void()> fit) : QObject(widget), fit_(std::move(fit)) {
    widget->installEventFilter(this);
    fit_();
  }

  bool eventFilter(QObject* watched, QEvent* event) override {
    // A sheet set on the application comes as this event to every widget. Once for each look, since
    // fitting may restyle.
    if (event->type() == QEvent::StyleChange && worn_ != lookNow()) {
      worn_ = lookNow();
      fit_();
    }
    return QObject::eventFilter(watched, event);
  }

 private:
  std::function<void()> fit_;
  Look worn_ = lookNow();
};

} // namespace

const Colours& colours(Scheme scheme) {
  static const Colours light{.ink{0x11, 0x11, 0x11},
                             .paper{0xff, 0xff, 0xff},
                             .shade{0xec, 0xec, 0xe6},
                             .edge{0x3c, 0x3c, 0x3c},
                             .strong{0x0b, 0x25, 0x45},
                             .onStrong{0xff, 0xff, 0xff},
                             .alarm{0x78, 0x1c, 0x00},
                             .onAlarm{0xff, 0xff, 0xff},
                             .cured{0xe6, 0x9f, 0x00},
                             .hand{0xff, 0xf3, 0xd0}};
  static const Colours dark{.ink{0xf4, 0xf4, 0xf0},
                            .paper{0x14, 0x17, 0x1a},
                            .shade{0x2a, 0x2f, 0x34},
                            .edge{0xc8, 0xc8, 0xc4},
                            .strong{0xbf, 0xdc, 0xff},
                            .onStrong{0x08, 0x10, 0x1c},
                            .alarm{0xff, 0xb0, 0x90},
                            .onAlarm{0x14, 0x08, 0x04},
                            .cured{0xa8, 0x6c, 0x00},
                            .hand{0x3c, 0x33, 0x14}};
  static const Colours highContrast{.ink{0xff, 0xff, 0xff},
                                    .paper{0x00, 0x00, 0x00},
                                    .shade{0x00, 0x00, 0x00},
                                    .edge{0xff, 0xff, 0xff},
                                    .strong{0xff, 0xff, 0x00},
                                    .onStrong{0x00, 0x00, 0x00},
                                    .alarm{0xff, 0xc8, 0x60},
                                    .onAlarm{0x00, 0x00, 0x00},
                                    .cured{0xa0, 0x60, 0x00},
                                    .hand{0x00, 0x00, 0x40}};
  switch (scheme) {
  case Scheme::light:
    return light;
  case Scheme::dark:
    return dark;
  case Scheme::highContrast:
    return highContrast;
  }
  base::fail("no such scheme");
}

int px(int atHundred) {
  return (atHundred * lookNow().percent + 50) / 100;
}

void whenDressed(QWidget* widget, std::function<void()> fit) {
  new Refit(widget, std::move(fit)); // owned by the widget
}

} // namespace gk::ui::style
