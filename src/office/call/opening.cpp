#include "office/call/opening.h"
#include "session/part.h"
#include "session/values/short_laptop.h"

#include "base/files/files.h"
#include "base/text/text.h"

#include <algorithm>
#include <limits>
#include <map>
#include <ostream>
#include <set>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

Result<base::Path> laptopFolder(const Call& call, const Surroundings& around) {
  if (const auto folder = call.textIfAny("--laptop-folder")) return base::Path(*folder);
  const auto set = [&](const char* name) { return around.environment(name).value_or(""); };
  if (const auto folder = set("XDG_CONFIG_HOME"); !folder.empty())
    return base::Path(folder) / "groovekeeper";
  if (const auto home = set("HOME"); !home.empty())
    return base::Path(home) / ".config" / "groovekeeper";
  return Error{ErrorCode::callMalformed,
               "no home folder to remember this laptop's logbooks in; give --laptop-folder FOLDER"};
}

template <class T, class Word>
Result<base::Recorded<T>> named(Result<std::vector<base::Recorded<T>>> rows, Word word,
                                const std::string& wanted, const std::string& what) {
  if (!rows) return rows.error();
  std::ranges::sort(*rows, {}, &base::Recorded<T>::id);
  const auto called = [&](const std::string& name) {
    std::vector<base::Recorded<T>> found;
    for (const auto& row : *rows)
      if (row.value.*word == name) found.push_back(row);
    return found;
  };
  const auto found = called(wanted);
  if (found.size() == 1) return found.front();
  if (found.size() > 1) {
    std::vector<base::Stamp> stamps;
    for (const auto& row : found)
      stamps.push_back(row.stamp);
    return Error{ErrorCode::callMalformed,
                 what + " \"" + wanted + "\" was entered on more than one laptop; say which: " +
                     numbers(wanted, stamps)};
  }
  if (const auto one = numbered(wanted))
    if (const auto all = called(one->name); one->nth <= all.size()) return all[one->nth - 1];
  std::vector<std::string> words;
  for (const auto& row : *rows)
    words.push_back(row.value.*word);
  return Error{ErrorCode::notFound,
               "there is no " + what + " \"" + wanted + "\" in this logbook; " +
                   (words.empty() ? "it has none yet" : "it has: " + base::join(words, ", "))};
}

} // namespace

std::optional<Numbered> numbered(const std::string& word) {
  const auto at = word.rfind('#');
  if (at == std::string::npos) return std::nullopt;
  const auto nth = base::parseInt(word.substr(at + 1));
  if (!nth || *nth < 1) return std::nullopt;
  return Numbered{word.substr(0, at), static_cast<std::size_t>(*nth)};
}

std::string numbers(const std::string& name, const std::vector<base::Stamp>& rows) {
  std::vector<std::string> words;
  for (const auto& row : rows)
    words.push_back(name + "#" + std::to_string(words.size() + 1) + " (" + row.at.words() +
                    ", laptop ..." + session::shortName(row.laptop) + ")");
  return base::join(words, ", ");
}

Option passphraseOption() {
  return {"--passphrase-file", "FILE", "opens names; or set GROOVEKEEPER_PASSPHRASE_FILE"};
}

Option byOption() {
  return {"--by", "INITIALS", "the team member whose act it is"};
}

Option pinOption() {
  return {"--pin-file", "FILE", "that member's PIN, for one who has one"};
}

Option clockOption() {
  return {"--clock-confirmed", "", "the laptop's date is right, though it was asked about"};
}

Option laptopOption() {
  return {"--laptop-folder", "FOLDER",
          "what this laptop remembers of its logbooks (~/.config/groovekeeper)"};
}

std::vector<Option> withAgreement(std::vector<Option> others) {
  others.insert(
      others.begin(),
      {{"--copied", "", "joins what copies of one laptop's disk or logbook recorded separately"},
       {"--days-to-come", "", "takes entries of days that have not come, made under a wrong clock"},
       {"--erase-listed", "ENTRIES",
        "as many entries of students whom the other logbook lists as erased go here too"}});
  return others;
}

Result<session::Agreed> agreedIn(Session& session, const Call& call, const Surroundings& around) {
  session::Agreed agreed{.copies = call.has("--copied"), .ahead = call.has("--days-to-come")};
  const auto entries = call.whole("--erase-listed", 1, std::numeric_limits<int>::max());
  if (!entries) return entries.error();
  if (!*entries) return agreed;
  const auto by = author(session, call, around);
  if (!by) return by.error();
  const auto own = ownPin(session, *by, call, around);
  if (!own) return own.error();
  agreed.erasures = session::ErasureYes{*by, **entries, *own};
  return agreed;
}

Result<session::HandMemory> thisLaptop(const Call& call, const Surroundings& around) {
  auto folder = laptopFolder(call, around);
  if (!folder) return folder.error();
  return session::HandMemory(std::move(*folder), around.machine, around.random);
}

Result<Session> openToRead(const Call& call, const Surroundings& around) {
  const base::LaptopId nobody(base::Uuid{}); // stamps nothing
  return Session::open(call.operand(0), nobody, {around.clock, around.random},
                       session::Access::readOnly);
}

Result<Session> openToWrite(const Call& call, const Surroundings& around) {
  // Looked at first, so that a wrong file name is said before anything else.
  if (const auto probe = openToRead(call, around); !probe &&
                                                   probe.error().code != ErrorCode::storeReadOnly &&
                                                   probe.error().code != ErrorCode::storeUnfinished)
    return probe.error();
  const auto laptop = thisLaptop(call, around);
  if (!laptop) return laptop.error();
  auto session = Session::open(call.operand(0), *laptop, {around.clock, around.random});
  if (session && call.has("--clock-confirmed")) session->confirmClock();
  if (session)
    for (const auto& note : {session->clockWarning(), session->copyNotice(),
                             session::partNotice(*session), session->tracesNotice()})
      if (!note.empty())
        around.err << "groovekeeper-office: note: " << base::printable(note) << '\n';
  return session;
}

Result<std::optional<std::string>> passphrase(const Call& call, const Surroundings& around) {
  auto file = call.textIfAny("--passphrase-file");
  if (!file) file = around.environment("GROOVEKEEPER_PASSPHRASE_FILE");
  if (!file || file->empty()) return std::optional<std::string>{};
  auto line = base::readFirstLine(*file);
  if (!line) return line.error();
  return std::optional(std::move(*line));
}

Result<std::string> passphraseNeeded(const Call& call, const Surroundings& around) {
  auto given = passphrase(call, around);
  if (!given) return given.error();
  if (!*given)
    return Error{ErrorCode::callMalformed, "names are needed and the passphrase was not given; "
                                           "give --passphrase-file FILE or set "
                                           "GROOVEKEEPER_PASSPHRASE_FILE"};
  return std::move(**given);
}

namespace {

/// The first line of the file of --pin-file, else of GROOVEKEEPER_PIN_FILE.
Result<std::string> pinNeeded(const Call& call, const Surroundings& around) {
  auto file = call.textIfAny("--pin-file");
  if (!file) file = around.environment("GROOVEKEEPER_PIN_FILE");
  if (!file || file->empty())
    return Error{ErrorCode::pinNeeded, "this member has a PIN; give --pin-file FILE, with "
                                       "--passphrase-file FILE, or set GROOVEKEEPER_PIN_FILE and "
                                       "GROOVEKEEPER_PASSPHRASE_FILE"};
  return base::readFirstLine(*file);
}

} // namespace

Result<base::By> author(Session& session, const Call& call, const Surroundings& around) {
  const auto initials = call.textIfAny("--by");
  if (!initials) return base::By{};
  const auto member = memberCalled(session, *initials);
  if (!member) return member.error();
  const auto state = session.pinOf(member->id);
  if (!state) return state.error();
  if (*state == roster::PinState::set) {
    auto pin = pinNeeded(call, around);
    if (!pin) return pin.error();
    if (!session.isUnlocked()) {
      auto secret = passphraseNeeded(call, around);
      if (!secret) return secret.error();
      if (const auto open = session.unlock(std::move(*secret)); !open) return open.error();
    }
    if (const auto known = session.signIn(member->id, std::move(*pin)); !known)
      return known.error();
  }
  return base::By{member->id, {}};
}

Result<session::OwnPin> ownPin(Session& session, const base::By& by, const Call& call,
                               const Surroundings& around) {
  if (!by.author) return session::OwnPin();
  const auto state = session.pinOf(*by.author);
  if (!state) return state.error();
  if (*state != roster::PinState::set) return session::OwnPin();
  auto pin = pinNeeded(call, around);
  if (!pin) return pin.error();
  const auto confirmed = session.confirm(*by.author, std::move(*pin));
  if (!confirmed) return confirmed.error();
  return session::OwnPin(*confirmed);
}

Result<base::Recorded<roster::Member>> memberCalled(Session& session, const std::string& initials) {
  return named(session.members(), &roster::Member::initials, initials, "team member");
}

Result<base::Recorded<roster::Term>> termCalled(Session& session, const std::string& name) {
  return named(session.terms(), &roster::Term::name, name, "term");
}

Option materialOption() {
  return {"--material", "NAME", "of the lot, where two materials have its number"};
}

Result<std::vector<base::Recorded<kit::Lot>>> lotsWanted(Session& session, const Call& call) {
  const auto number = call.text("--lot");
  const auto material = call.textIfAny("--material");
  auto lots = session.lots();
  if (!lots) return lots;
  std::erase_if(*lots, [&](const auto& row) {
    return base::folded(row.value.lot) != base::folded(number) ||
           (material && base::folded(row.value.material) != base::folded(*material));
  });
  if (lots->empty())
    return Error{ErrorCode::notFound, "there is no lot " + number +
                                          (material ? " of " + *material : "") +
                                          " in this logbook; add-lot adds one"};
  std::map<std::string, std::string> byFold;
  for (const auto& row : *lots)
    byFold.emplace(base::folded(row.value.material), row.value.material);
  std::set<std::string> materials;
  for (const auto& [folded, name] : byFold)
    materials.insert(name);
  if (materials.size() > 1)
    return Error{ErrorCode::callMalformed,
                 std::to_string(materials.size()) + " materials have a lot " + number + ": " +
                     base::join({materials.begin(), materials.end()}, ", ") +
                     "; say which with --material NAME"};
  return lots;
}

Result<base::Recorded<kit::Light>> lightTagged(Session& session, const std::string& tag) {
  return named(session.lights(), &kit::Light::tag, tag, "light");
}

Result<base::Recorded<roster::School>> schoolCoded(Session& session, const std::string& code) {
  return named(session.schools(), &roster::School::code, code, "school with the code");
}

Result<roster::ChildId> childNumbered(Session& session, const std::string& text) {
  const auto number = roster::parseChildNumber(text);
  if (!number) return number.error();
  const auto found = session.findChildren(*number);
  if (!found) return found.error();
  const auto child = std::ranges::find(*found, *number, &session::Found::number);
  if (child == found->end())
    return Error{ErrorCode::notFound, "there is no student " + *number + " in this logbook"};
  return child->child;
}

} // namespace gk::office
