#include "ui/pages/screening_panel.h"
#include "ui/support/text.h"

namespace gk::ui {

void ScreeningPanel::addNote() {
  if (!draft_) return;
  const auto tooth = visit().map.selected();
  visit().ask.choose(u"Note on what?"_s, {capital(toQt(tooth.words())), u"The whole visit"_s},
                     [this, tooth](int chosen) {
                       if (chosen == 1) {
                         visit().ask.write(u"Note on the visit"_s, toQt(draft_->note()),
                                           [this](const QString& said) {
                                             change([&] { draft_->setNote(toStd(said)); });
                                           });
                         return;
                       }
                       const auto* finding = draft_->find(tooth);
                       visit().ask.write(u"Note on the "_s + toQt(tooth.words()) +
                                             u": an extra tooth beside it, drifted, its shape"_s,
                                         finding ? toQt(finding->note) : QString(),
                                         [this, tooth](const QString& said) {
                                           change([&] { draft_->setNote(tooth, toStd(said)); });
                                         });
                     });
}

} // namespace gk::ui
