#include "ui/chair/screening_panel.h"

#include "dentition/eruption.h"
#include "reports/display_names.h"
#include "ui/drafts/mouth_faces.h"
#include "ui/field/stop_child.h"
#include "ui/look/style.h"
#include "ui/look/touch.h"
#include "ui/models/authorized.h"
#include "ui/support/page_keys.h"
#include "ui/support/text.h"
#include "ui/visit/doubtful_record.h"

#include <QLabel>
#include <QVBoxLayout>
#include <QVariant>

#include <algorithm>
#include <memory>

namespace gk::ui {

using dentition::Surface;

namespace {

template <class E>
QString named(E value) {
  return toQt(base::displayName(value));
}

/// The rarer states, behind one key.
const std::vector<std::pair<QString, ToothState>>& rarer() {
  static const std::vector<std::pair<QString, ToothState>> states{
      {u"Operculum"_s, ToothState::operculum},
      {u"Gingiva over pit/groove"_s, ToothState::gumOverCompanion},
      {u"Cannot see"_s, ToothState::cannotSee},
      {u"Congenitally missing"_s, ToothState::neverFormed},
      {u"Opacity (MIH)"_s, ToothState::opacity},
      {u"MIH with breakdown"_s, ToothState::opacityBroken},
      {u"Hypoplasia"_s, ToothState::hypoplasia},
      {u"Fluorosis, mild"_s, ToothState::fluorosisMild},
      {u"Fluorosis, pitted"_s, ToothState::fluorosisPitted},
      {u"Band or bracket"_s, ToothState::banded},
      {u"Fractured"_s, ToothState::fractured},
      {u"Sealed, origin?"_s, ToothState::unknownOrigin},
      {u"Primary molar retained"_s, ToothState::primaryStillHere},
      {u"Exfoliated"_s, ToothState::shed}};
  return states;
}

} // namespace

ScreeningPanel::ScreeningPanel(ChairVisit& visit, QWidget* parent)
    : ChairPanel(visit, parent), cursor_(new QLabel(this)), questions_(new QLabel(this)),
      age_(new QLabel(this)), dentist_(new QLabel(this)), pause_(new QLabel(this)),
      keys_(new KeyBar(3, this)), changes_(new KeyBar(5, this)), answers_(new KeyBar(4, this)) {
  setObjectName(u"screeningPanel"_s);
  cursor_->setObjectName(u"screeningCursor"_s);
  questions_->setObjectName(u"screeningQuestions"_s);
  age_->setObjectName(u"screeningAge"_s);
  dentist_->setObjectName(u"screeningDentist"_s);
  pause_->setObjectName(u"pauseLine"_s);
  for (auto* label : {cursor_, questions_, age_, dentist_, pause_}) {
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
  }
  cursor_->setProperty("look", u"bold"_s);
  pause_->setProperty("look", u"pause"_s);
  (new QVBoxLayout(this))->setContentsMargins(0, 0, 0, 0);
  questions_->setProperty("look", u"small"_s);
  changes_->setProperty("dense", true);
  age_->setProperty("look", u"notice"_s);
  arrange();
  tellKeys(*this, {{u"L"_s, u"One surface"_s}, {u"B"_s, u"Add a tooth"_s}});
}

/// Where letters are large, the plan that is read aloud and what records it come before the keys of
/// the teeth: all of it is in sight then.
void ScreeningPanel::arrange() {
  constexpr int lines = 4; // between words and keys
  auto* column = static_cast<QVBoxLayout*>(layout());
  const bool planFirst = !pause_->isHidden() && lookNow().percent > 120;
  if (column->count() > 0 && planFirst == planFirst_) return;
  planFirst_ = planFirst;
  const std::vector<QWidget*> order =
      planFirst ? std::vector<QWidget*>{cursor_,    age_,  pause_,   changes_,
                                        questions_, keys_, answers_, dentist_}
                : std::vector<QWidget*>{cursor_,    age_,     keys_,    changes_,
                                        questions_, answers_, dentist_, pause_};
  while (const std::unique_ptr<QLayoutItem> item{column->takeAt(0)}) {
  }
  column->setSpacing(lines);
  for (auto* part : order) {
    if (part == (planFirst ? keys_ : changes_)) column->addSpacing(style::touchGap() - lines);
    column->addWidget(part);
  }
  column->addStretch();
}

void ScreeningPanel::begin() {
  draft_.reset();
  before_.clear();
  part_.reset();
  read_.clear();
}

void ScreeningPanel::load() {
  draft_.emplace(file().program.value, file().card.sealants.allows);
  if (file().screening) {
    draft_->takeOver(file().screening->value);
    for (const auto& [tooth, question] : ageQuestions())
      read_.push_back(tooth); // before it was recorded
    return;
  }
  for (const auto& earlier : file().earlier)
    if (earlier.newest && earlier.newest->value.day == file().day.id)
      draft_->takeOver(earlier.placement.value.tooth, earlier.newest->value);
  if (const auto first = draft_->nextUnsaid()) visit().map.select(*first);
}

QWidget* ScreeningPanel::mustSee() const {
  if (!age_->isHidden()) return age_;
  return pause_->isHidden() ? nullptr : pause_;
}

std::vector<TileFace> ScreeningPanel::faces() const {
  return facesOf(
      {.notation = visit().notation(),
       .findings = draft_ ? std::span(draft_->teeth()) : std::span<const chairside::ToothFinding>(),
       .placements = file().placements,
       .earlier = file().earlier,
       .picked = part_});
}

KeyAction ScreeningPanel::stateKey(int key, const QString& words, ToothState state) {
  return {key, words, u"state%1Button"_s.arg(QChar(key)), [this, state] { set(state); }};
}

QString ScreeningPanel::questionText(int question) const {
  const auto tri = [](const std::optional<chairside::Tri>& said) {
    return said ? named(*said).toUpper() : u"4 no  5 yes  6 cannot tell"_s;
  };
  const auto urgency = [&] {
    if (!draft_->urgency()) return u"4 no obvious problem  5 early care  6 urgent care"_s;
    auto words = named(*draft_->urgency()).toUpper();
    if (draft_->urgentReason() != chairside::UrgentReason::none)
      words += u", "_s + named(draft_->urgentReason());
    return words;
  };
  const auto open = draft_->openQuestion();
  const auto cursor = open == question ? u"> "_s : open < 3 ? u"   "_s : QString();
  // Where all is answered the line is short: the plan below it is read aloud.
  if (question == 0)
    return cursor + u"Untreated decay: "_s + tri(draft_->untreated()) +
           (draft_->isDecayCharted() && open < 3 ? u" (a cavity is charted; Q: change answers)"_s
                                                 : QString());
  if (question == 1) return cursor + u"Treated decay: "_s + tri(draft_->treated());
  return cursor + u"Urgency: "_s + urgency();
}

void ScreeningPanel::refresh() {
  if (!draft_) load();
  const auto tooth = visit().map.selected();
  const auto part = partNow();
  if (!part) part_.reset();                        // the cursor went on
  const bool isDone = draft_->openQuestion() >= 3; // and one line is left for the title
  auto cursor =
      capital(toQt(tooth.shown(visit().notation()))) + (part ? u": "_s + named(*part) + u" only"_s
                                                        : isDone ? QString()
                                                                 : u": whole tooth"_s);
  if (const auto* finding = draft_->find(tooth)) {
    cursor += u". Decision: "_s + named(finding->decision);
    if (!finding->note.empty()) cursor += u". Note: "_s + toQt(finding->note);
  }
  cursor_->setText(cursor);
  QStringList ages;
  for (const auto& [asked, question] : ageQuestions())
    ages += question;
  age_->setText(ages.join(u'\n') + u" R: read."_s);
  age_->setVisible(!ages.isEmpty());
  // Answered, they make room for the line that is read aloud.
  const bool asks = draft_->openQuestion() < 3;
  const auto between = asks ? u"\n"_s : u", "_s;
  questions_->setText(questionText(0) + between + questionText(1) + between + questionText(2));
  pause_->setVisible(!asks);
  arrange();
  const auto beside = toQt(againstAuthorized(file(), draft_->teeth()));
  const auto plan = toQt(pauseLine(mayPlace(file(), draft_->teeth()), visit().notation()));
  pause_->setText(beside.isEmpty() ? plan : plan + u' ' + beside); // read aloud in one
  dentist_->setText(beside);
  dentist_->setVisible(asks && !beside.isEmpty());
  showKeys(asks, !ages.isEmpty());
}

void ScreeningPanel::keep() {
  before_.push_back({*draft_, visit().map.selected(), part_});
}

void ScreeningPanel::change(const std::function<void()>& how) {
  keep();
  how();
  Q_EMIT visit().changed();
}

bool ScreeningPanel::undo() {
  if (before_.empty()) return false;
  const auto before = before_.back();
  before_.pop_back();
  draft_ = before.draft;
  visit().map.select(before.tooth);
  part_ = before.part;
  visit().strip.say(u"Last entry undone, at the "_s + toQt(before.tooth.words()) + u'.');
  Q_EMIT visit().changed();
  return true;
}

/// Every answer goes on to the next tooth alike, also one that leaves something to say.
void ScreeningPanel::set(ToothState state) {
  const auto tooth = visit().map.selected();
  keep();
  draft_->set(tooth, state, partNow());
  part_.reset();
  if (const auto next = draft_->nextUnsaid(tooth)) visit().map.select(*next);
  Q_EMIT visit().changed();
  const bool isOurs = state == ToothState::ours || state == ToothState::oursInPart;
  if (isOurs && !hasPlacement(file(), tooth)) findPlacementOf(visit(), tooth);
}

std::vector<std::pair<dentition::Tooth, QString>> ScreeningPanel::ageQuestions() const {
  std::vector<std::pair<dentition::Tooth, QString>> asked;
  const auto& child = file().child.value;
  const auto age = roster::approximateAge(child.birth, visit().date());
  for (const auto& finding : draft_->teeth()) {
    const bool isUp = finding.presence == chairside::Presence::erupted ||
                      finding.presence == chairside::Presence::partlyErupted;
    if (!isUp || std::ranges::find(read_, finding.tooth) != read_.end()) continue;
    const auto question = dentition::eruptionQuestion(finding.tooth, child.sex, age);
    if (!question.empty()) asked.emplace_back(finding.tooth, toQt(question));
  }
  return asked;
}

void ScreeningPanel::readAges() {
  for (const auto& [tooth, question] : ageQuestions())
    read_.push_back(tooth);
  Q_EMIT visit().changed();
}

void ScreeningPanel::more() {
  QStringList options;
  for (const auto& [words, state] : rarer())
    options += words;
  const auto findings = options.size();
  options += u"One surface only (L)"_s;
  options += u"Add a tooth (B)"_s;
  visit().ask.choose(u"More findings for this tooth"_s, options, [this, findings](int chosen) {
    if (chosen == findings) return nextPart();
    if (chosen > findings) return addTooth();
    set(rarer()[static_cast<std::size_t>(chosen)].second);
  });
}

std::optional<Surface> ScreeningPanel::partNow() const {
  if (!part_ || part_->tooth != visit().map.selected()) return std::nullopt;
  return part_->surfaces.values().front();
}

void ScreeningPanel::pick(Surface surface) {
  if (partNow() == surface)
    part_.reset();
  else
    part_ = {visit().map.selected(), {surface}};
  Q_EMIT visit().changed();
}

void ScreeningPanel::nextPart() {
  const auto parts = dentition::usualSurfaces(visit().map.selected()).values();
  const auto now = partNow();
  const auto here = now ? std::ranges::find(parts, *now) : parts.end();
  if (!now)
    pick(parts.front());
  else if (here == parts.end() || here + 1 == parts.end())
    pick(*now); // round to the whole tooth
  else
    pick(*(here + 1));
}

void ScreeningPanel::addTooth() {
  visit().ask.write(u"Which tooth? Its number or letter"_s, {}, [this](const QString& said) {
    const auto tooth = dentition::Tooth::parse(toStd(said.toUpper()), visit().notation());
    if (!tooth) {
      visit().strip.post(describe(tooth.error()));
      return;
    }
    keep();
    draft_->add(*tooth);
    visit().map.select(*tooth);
    visit().strip.say(u"Added: "_s + toQt(tooth->shown(visit().notation())));
    Q_EMIT visit().changed();
    if (tooth->isPremolar()) askWhatStands();
  });
}

/// A primary molar that has not been shed stands where its premolar will come.
void ScreeningPanel::askWhatStands() {
  visit().ask.choose(u"Which tooth is here?"_s,
                     {u"Premolar, erupted"_s, u"Primary molar retained"_s, u"Neither is erupted"_s},
                     [this](int chosen) {
                       if (chosen == 1) set(ToothState::primaryStillHere);
                       if (chosen == 2) set(ToothState::notUp);
                     });
}

void ScreeningPanel::answer(int choice) {
  if (draft_->openQuestion() < 3) keep();
  draft_->answer(choice);
  if (draft_->urgency() == chairside::Urgency::urgent &&
      draft_->urgentReason() == chairside::UrgentReason::none) {
    QStringList reasons;
    for (std::size_t i = 1; i < base::enumCount<chairside::UrgentReason>; ++i)
      reasons += named(static_cast<chairside::UrgentReason>(i));
    visit().ask.choose(
        u"Urgent: reason? A parent must be called today."_s, reasons,
        [this](int chosen) {
          draft_->setUrgentReason(static_cast<chairside::UrgentReason>(chosen + 1));
          Q_EMIT visit().changed();
        },
        {}, AskKeys::marked);
  }
  Q_EMIT visit().changed();
}

void ScreeningPanel::record() {
  if (const auto missing = draft_->missing(); !missing.empty()) {
    visit().strip.say(u"Not recorded yet: "_s + toQt(missing) + u'.');
    return;
  }
  if (const auto tooth = draft_->unexplainedReseal()) {
    askReseal(*tooth);
    return;
  }
  if (!ageQuestions().empty()) {
    visit().strip.say(u"Not recorded yet: read the age question first, then R."_s);
    return;
  }
  const auto screening = draft_->build(file().child.id, file().day.id);
  const auto old = file().screening;
  if (old && old->value == screening) {
    Q_EMIT finished();
    return;
  }
  if (!old) {
    if (visit().act([&] { return visit().book().screen(visit().by(), screening); }))
      Q_EMIT finished();
    return;
  }
  visit().ask.write(u"What is corrected, and why?"_s, u"looked again"_s,
                    [this, old, screening](const QString& why) {
                      if (visit().act([&] {
                            return visit().book().correctScreening(visit().by(), *old, screening,
                                                                   toStd(why));
                          }))
                        Q_EMIT finished();
                    });
}

void ScreeningPanel::askReseal(const dentition::Tooth& tooth) {
  using chairside::ResealWhy;
  QStringList options;
  for (std::size_t i = 1; i < base::enumCount<ResealWhy>; ++i)
    options += capital(named(static_cast<ResealWhy>(i)));
  visit().ask.choose(u"Why is the sealant of the "_s + toQt(tooth.words()) + u" placed again?"_s,
                     options, [this, tooth](int chosen) {
                       const auto why = static_cast<ResealWhy>(chosen + 1);
                       draft_->setResealWhy(tooth, why);
                       const auto* finding = draft_->find(tooth);
                       if (why != ResealWhy::other || !finding->note.empty()) return record();
                       visit().ask.write(u"Reason, in your words?"_s, {},
                                         [this, tooth](const QString& said) {
                                           draft_->setNote(tooth, toStd(said));
                                           record();
                                         });
                     });
}

void ScreeningPanel::stopChild() {
  ui::stopChild(visit(), nullptr, [this] { Q_EMIT finished(); });
}

} // namespace gk::ui
