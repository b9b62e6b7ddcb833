#include "ui/look/style.h"

#include "base/contract.h"

#include <QEvent>
#include <QStyle>
#include <QVariant>
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

const Colors& colors(Scheme scheme) {
  static const Colors light{.ink{0x10, 0x20, 0x1b},
                            .quiet{0x34, 0x45, 0x3f},
                            .ground{0xf1, 0xf5, 0xf2},
                            .card{0xff, 0xff, 0xff},
                            .sunk{0xe2, 0xea, 0xe6},
                            .line{0xc5, 0xd0, 0xca},
                            .edge{0x5a, 0x6a, 0x64},
                            .strong{0x0a, 0x40, 0x38},
                            .onStrong{0xff, 0xff, 0xff},
                            .soft{0xd3, 0xeb, 0xe3},
                            .hand{0xff, 0xf0, 0xbf},
                            .ask{0xff, 0xe0, 0x8a},
                            .alarm{0x7c, 0x0f, 0x20},
                            .onAlarm{0xff, 0xff, 0xff},
                            .alarmSoft{0xfb, 0xe6, 0xe6},
                            .cured{0xf2, 0xae, 0x33},
                            .onCured{0x10, 0x20, 0x1b},
                            .focus{0x0b, 0x4f, 0xc4},
                            .rail{0x0a, 0x32, 0x2c},
                            .onRail{0xff, 0xff, 0xff},
                            .railOn{0xff, 0xff, 0xff},
                            .onRailOn{0x0a, 0x40, 0x38},
                            .railQuiet{0xb9, 0xd6, 0xce},
                            .chart{0x0a, 0x6b, 0x5e},
                            .chartOdd{0xb5, 0x55, 0x1a},
                            .chartQuiet{0x6b, 0x7a, 0x74}};
  static const Colors dark{.ink{0xf2, 0xf6, 0xf3},
                           .quiet{0xc6, 0xd2, 0xcc},
                           .ground{0x0e, 0x15, 0x13},
                           .card{0x18, 0x21, 0x1e},
                           .sunk{0x26, 0x32, 0x2e},
                           .line{0x3a, 0x48, 0x43},
                           .edge{0x9d, 0xb0, 0xa8},
                           .strong{0x8f, 0xe3, 0xcf},
                           .onStrong{0x06, 0x20, 0x1a},
                           .soft{0x17, 0x44, 0x3a},
                           .hand{0x3b, 0x32, 0x10},
                           .ask{0x4a, 0x3c, 0x06},
                           .alarm{0xff, 0xb3, 0xa6},
                           .onAlarm{0x26, 0x05, 0x07},
                           .alarmSoft{0x4a, 0x1a, 0x1a},
                           .cured{0xf0, 0xb0, 0x40},
                           .onCured{0x10, 0x20, 0x1b},
                           .focus{0x9c, 0xc4, 0xff},
                           .rail{0x07, 0x10, 0x0e},
                           .onRail{0xf2, 0xf6, 0xf3},
                           .railOn{0x8f, 0xe3, 0xcf},
                           .onRailOn{0x06, 0x20, 0x1a},
                           .railQuiet{0xa9, 0xc4, 0xbc},
                           .chart{0x6f, 0xd6, 0xbf},
                           .chartOdd{0xf2, 0xa2, 0x68},
                           .chartQuiet{0xa9, 0xb8, 0xb1}};
  static const Colors highContrast{.ink{0xff, 0xff, 0xff},
                                   .quiet{0xff, 0xff, 0xff},
                                   .ground{0x00, 0x00, 0x00},
                                   .card{0x00, 0x00, 0x00},
                                   .sunk{0x00, 0x00, 0x00},
                                   .line{0xff, 0xff, 0xff},
                                   .edge{0xff, 0xff, 0xff},
                                   .strong{0xff, 0xff, 0x00},
                                   .onStrong{0x00, 0x00, 0x00},
                                   .soft{0x1a, 0x1a, 0x00},
                                   .hand{0x00, 0x00, 0x2e},
                                   .ask{0x24, 0x1c, 0x00},
                                   .alarm{0xff, 0xc8, 0x60},
                                   .onAlarm{0x00, 0x00, 0x00},
                                   .alarmSoft{0x24, 0x14, 0x00},
                                   .cured{0xf0, 0xb0, 0x40},
                                   .onCured{0x00, 0x00, 0x00},
                                   .focus{0x80, 0xe0, 0xff},
                                   .rail{0x00, 0x00, 0x00},
                                   .onRail{0xff, 0xff, 0xff},
                                   .railOn{0xff, 0xff, 0x00},
                                   .onRailOn{0x00, 0x00, 0x00},
                                   .railQuiet{0xff, 0xff, 0xff},
                                   .chart{0x80, 0xff, 0xe0},
                                   .chartOdd{0xff, 0xb0, 0x70},
                                   .chartQuiet{0xff, 0xff, 0xff}};
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

void wear(QWidget& widget, const QString& look) {
  if (widget.property("look").toString() == look) return;
  widget.setProperty("look", look);
  widget.style()->unpolish(&widget);
  widget.style()->polish(&widget);
  widget.update();
}

void whenDressed(QWidget* widget, std::function<void()> fit) {
  new Refit(widget, std::move(fit)); // owned by the widget
}

} // namespace gk::ui::style
