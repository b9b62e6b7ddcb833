#include "ui/chair/screening_panel.h"
#include "ui/support/text.h"

#include <QKeyEvent>

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

void ScreeningPanel::showKeys(bool asks, bool hasAges) {
  keys_->setActions({stateKey(Qt::Key_S, u"Sound, erupted"_s, ToothState::sound),
                     stateKey(Qt::Key_E, u"Non-cavitated lesion"_s, ToothState::early),
                     stateKey(Qt::Key_C, u"Cavity"_s, ToothState::cavity),
                     stateKey(Qt::Key_F, u"Filled"_s, ToothState::filled),
                     stateKey(Qt::Key_K, u"Crown"_s, ToothState::crown),
                     stateKey(Qt::Key_G, u"Missing tooth"_s, ToothState::gone),
                     stateKey(Qt::Key_D, u"Unerupted"_s, ToothState::notUp),
                     stateKey(Qt::Key_A, u"Partially erupted"_s, ToothState::partUp),
                     stateKey(Qt::Key_Y, u"Sealed elsewhere"_s, ToothState::elsewhere),
                     stateKey(Qt::Key_O, u"Our sealant, full"_s, ToothState::ours),
                     stateKey(Qt::Key_T, u"Our sealant, partial"_s, ToothState::oursInPart),
                     {Qt::Key_Z, u"2nd molars unerupted"_s, u"secondsNotUpButton"_s,
                      [this] { change([this] { draft_->setSecondMolarsNotUp(); }); }}});
  changes_->setActions(
      {{Qt::Key_V, u"Surfaces"_s, u"surfacesButton"_s,
        [this] { change([this] { draft_->changeSurfaces(visit().map.selected()); }); }},
       {Qt::Key_J, u"Decision"_s, u"decisionButton"_s,
        [this] { change([this] { draft_->changeDecision(visit().map.selected()); }); }},
       {Qt::Key_Q, u"Answers"_s, u"askAgainButton"_s,
        [this] { change([this] { draft_->askAgain(); }); }},
       {Qt::Key_M, u"More"_s, u"moreStatesButton"_s, [this] { more(); }},
       {Qt::Key_Return, u"Record"_s, u"recordScreeningButton"_s, [this] { record(); },
        KeyLook::main}});
  std::vector<KeyAction> answers;
  if (asks)
    answers = {{Qt::Key_4, u"no / none"_s, u"answer4Button"_s, [this] { answer(0); }},
               {Qt::Key_5, u"yes / early"_s, u"answer5Button"_s, [this] { answer(1); }},
               {Qt::Key_6, u"? / urgent"_s, u"answer6Button"_s, [this] { answer(2); }}};
  if (hasAges)
    answers.push_back({Qt::Key_R, u"Age note read"_s, u"ageReadButton"_s, [this] { readAges(); }});
  answers_->setActions(std::move(answers));
}

/// One surface and another tooth are wished for seldom: they are keys too, and stand under More.
bool ScreeningPanel::press(const QKeyEvent& event) {
  if (event.key() == Qt::Key_L || event.key() == Qt::Key_B) {
    if (event.isAutoRepeat()) return true;
    event.key() == Qt::Key_L ? nextPart() : addTooth();
    return true;
  }
  return keys_->press(event) || changes_->press(event) || answers_->press(event);
}

} // namespace gk::ui
