#include "ui/visit/chair_panel.h"

#include "ui/support/text.h"

namespace gk::ui {

void ChairPanel::wet() {
  visit().strip.say(u"No teeth are isolated, so there is no contamination to record."_s);
}

void ChairPanel::addNote() {
  const auto old = file().screening;
  if (!old) {
    visit().strip.say(u"A note is kept with the screening: screen first."_s);
    return;
  }
  visit().ask.write(u"Note"_s, {}, [this, old](const QString& said) {
    auto noted = old->value;
    noted.note += (noted.note.empty() ? "" : "; ") + toStd(said);
    if (visit().act([&] {
          return visit().book().correctScreening(visit().by(), *old, noted, "a note was added");
        }))
      visit().strip.say(u"Noted."_s);
  });
}

} // namespace gk::ui
