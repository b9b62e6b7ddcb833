#include "base/text/printed_code.h"
#include "base/text/text.h"
#include "session/book/snapshot.h"
#include "session/keys/opened_names.h"
#include "session/reader_held.h"
#include "session/session_write.h"
#include "session/values/short_laptop.h"
#include "store/copies/image.h"

namespace gk::session {

using base::Error;
using base::ErrorCode;

namespace {

store::Durability durabilityOf(BookKind kind) {
  return kind == BookKind::real ? store::Durability::everyAct : store::Durability::bulk;
}

} // namespace

Reader::Reader(store::Book book, World world)
    : held_(std::make_unique<Held>(std::move(book))), book_(held_->book), vault_(held_->vault),
      world_(world) {}
Reader::Reader(Reader&&) noexcept = default;
Reader::~Reader() = default;

const base::Path& Reader::path() const {
  return book_.path();
}

bool Reader::isUnlocked() const {
  return vault_.has_value();
}

Result<bool> Reader::isChecked() const {
  return book_.isChecked();
}

void Reader::forgetRoll() {
  held_->roll.reset();
}

Door::Door(store::Book book, World world) : Reader(std::move(book), world) {
  keyboard_.slept = world.clock.steady() - world.clock.awake();
}

Session::Session(store::Book book, World world) : DayVerbs(std::move(book), world) {}

Result<Session> Session::create(const base::Path& path, std::string passphrase,
                                const store::HandMemory& laptop, World world,
                                const roster::Program& program, BookKind kind,
                                Confirmed clockIsRight) {
  const auto secret = crypto::Secret::taking(passphrase);
  if (const auto question = firstClockQuestion(world.clock.now());
      question && clockIsRight == Confirmed::no)
    return Error{ErrorCode::clockAhead, *question};
  const auto sound = roster::soundProgram(program);
  if (!sound) return sound.error();
  auto created = vault::Vault::create(secret, costOf(kind), world.random);
  if (!created) return created.error();
  const auto now = world.clock.now();
  const auto& rule = ruleOf(Verb::enterProgram);
  auto book = store::Book::create(
      path, laptop, durabilityOf(kind), now.at, keyRowOf(created->wrapped), world.random,
      {{.station = rule.station}, now, [&](store::Act& act) { act.add(*sound); }, rule.name});
  if (!book) return book.error();
  Session session(std::move(*book), world);
  session.vault_ = std::move(created->vault);
  session.kind_ = kind;
  return session;
}

std::optional<std::string> Session::firstClockQuestion(base::LocalInstant now) {
  // Before the year of this program, or long after any computer that runs it: an empty clock
  // battery, or a digit too many. There is no entry yet to hold it against.
  constexpr int firstYear = 2026;
  constexpr int lastYear = 2045;
  const auto year = now.date().year();
  if (year >= firstYear && year <= lastYear) return std::nullopt;
  return "This laptop's clock says " + now.words() +
         ". Is the date right? The logbook begins under it, and entries made under a wrong date "
         "stay "
         "under it.";
}

Result<Session> Session::open(const base::Path& path, const store::HandMemory& laptop, World world,
                              store::Access access, BookKind kind, store::Checkup checkup,
                              const base::Progress& progress) {
  auto book = store::Book::open(path, laptop, access, durabilityOf(kind), world.clock.now().at,
                                checkup, progress);
  if (!book) return book.error();
  Session session(std::move(*book), world);
  session.kind_ = kind;
  return session;
}

Result<base::Done> Session::unlock(std::string passphrase,
                                   const std::optional<base::MemberId>& who) {
  auto code = base::readCode(passphrase, base::recoveryCodeShape);
  const auto secret = crypto::Secret::taking(passphrase);
  const auto printed = code ? std::optional(crypto::Secret::taking(*code)) : std::nullopt;
  auto opened = openNames(secret, printed, who);
  if (!opened) return opened.error();
  vault_ = std::move(opened->vault);
  forgetRoll();
  beginKeyboard();
  held_->openedBy = opened->who;
  changed_.emit(Change{});
  return base::Done{};
}

void Session::lock() {
  lockNames();
}

Result<base::Done> Session::changePassphrase(By by, std::string present, std::string next) {
  const auto secret = crypto::Secret::taking(next);
  const auto may = admit(Verb::changePassphrase, by);
  if (!may) return may.error();
  if (!vault_) return Error{ErrorCode::vaultLocked, "unlock the logbook first"};
  if (const auto own = opensPresentKey(); !own) return own.error();
  if (const auto known = isOpenedBy(present, OrCode::yes); !known) return known.error();
  auto wrapped = vault_->rewrap(secret, crypto::KdfCost::interactive(), world_.random);
  if (!wrapped) return wrapped.error();
  const auto recovery = book_.recovery();
  if (!recovery) return recovery.error();
  const auto& name = vault_->name().key;
  return write(*may, {}, [&](store::Act& act) {
    act.add(roster::PassphraseChange{{name.bytes.begin(), name.bytes.end()}});
    act.openers().present(keyRowOf(*wrapped, name), *recovery);
    return base::Done{};
  });
}

Result<base::Done> Session::backUp(const base::Path& target) {
  return book_.backUp(target);
}

bool Session::isInPlace() const {
  return book_.isInPlace();
}

Result<store::Merged> Session::absorb(const base::Path& other, const Agreed& agreed,
                                      const base::Progress& progress) {
  std::optional<store::ActStamp> noted;
  if (agreed.by) {
    const auto may = admit(Verb::merge, *agreed.by);
    if (!may) return may.error();
    noted = {may->by(), world_.clock.now(), ruleOf(Verb::merge).name};
  }
  auto admitted = admitMerge(agreed);
  if (!admitted) return admitted.error();
  admitted->noted = noted;
  auto merged = book_.absorb(other, world_.clock.now().at, progress, *admitted);
  if (merged) changed_.emit(Change{});
  return merged;
}

Result<std::vector<std::string>> Session::copiedLines() {
  const auto lines = book_.copiedLines();
  if (!lines) return lines.error();
  std::vector<std::string> words;
  for (const auto& line : *lines)
    words.push_back("laptop ..." + session::shortName(line.name) + ": copied from laptop ..." +
                    session::shortName(line.copiedFrom) + ", separate since " + line.since.words() +
                    ", " + base::counted(line.acts, "entry", "entries"));
  return words;
}

void Session::holdNews() {
  changed_.hold();
}

void Session::tellNews() {
  if (changed_.release()) changed_.emit(Change{});
}

bool Session::isOfOlderVersion(const base::Path& path) {
  return store::isOfOlderVersion(path);
}

std::string Session::edition() const {
  const auto now = book_.edition();
  return book_.identity().text() + ":" + now.newest.uuid().text() +
         (now.merges > 0 ? "+" + std::to_string(now.merges) : "");
}

Result<std::unique_ptr<SnapshotDraft>> Session::snapshot() {
  auto image = store::Image::of(book_);
  if (!image) return image.error();
  return std::make_unique<SnapshotDraft>(
      std::move(*image),
      std::make_unique<StillWorld>(StillWorld{base::ManualClock(world_.clock.now())}),
      vault_ ? std::optional(vault_->twin()) : std::nullopt, path());
}

Result<std::vector<store::Fault>> Session::findings() {
  auto found = book_.faults();
  if (!found || !vault_) return found;
  const auto children = book_.current<roster::Child>(store::everything());
  if (!children) return children.error();
  for (const auto& child : *children) {
    const auto unread = unreadableName(book_, child.id, [&](const crypto::Sealed& box) {
      const auto opened = reveal(child.id, box);
      return opened || opened.error().code != ErrorCode::vaultDamaged;
    });
    if (!unread) return unread.error();
    if (*unread)
      found->push_back(
          {"the name of student " + child.value.number + " cannot be read: " + (*unread)->how,
           child.value.number, (*unread)->stamp.at, (*unread)->doNow});
  }
  return found;
}

Result<std::vector<store::Fault>> Session::inspect(const base::Path& path, World world) {
  const base::LaptopId nobody(base::Uuid{}); // stamps nothing
  auto book = store::Book::open(path, nobody, store::Access::readOnly, store::Durability::everyAct,
                                world.clock.now().at, store::Checkup::skip);
  auto found = book ? book->faults() : book.error();
  if (!found && found.error().code == ErrorCode::storeDamaged)
    return std::vector<store::Fault>{{found.error().detail}};
  return found;
}

Result<SignedSheet> Session::inspectSheet(const base::Path& path, World world,
                                          const std::string& code) {
  const base::LaptopId nobody(base::Uuid{}); // stamps nothing
  auto book = store::Book::open(path, nobody, store::Access::readOnly, store::Durability::everyAct,
                                world.clock.now().at, store::Checkup::skip);
  if (!book) return book.error();
  // A sheet is held against what the acts say they are; so they must be what they say.
  const auto faults = book->faults();
  if (!faults) return faults.error();
  auto sheet = Session(std::move(*book), world).signedSheet(code);
  if (sheet && !faults->empty())
    for (auto& line : sheet->lines)
      if (line.flaw.empty())
        line.flaw = "the logbook is damaged and proves nothing (" + faults->front().what + ")";
  return sheet;
}

Result<base::Done> Session::finish() {
  return book_.finish();
}

base::Subscription Session::onChanged(std::function<void(const Change&)> listener) {
  return changed_.connect(std::move(listener));
}

} // namespace gk::session
