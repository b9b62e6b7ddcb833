#pragma once

#include "office/call/call.h"
#include "office/call/surroundings.h"
#include "session/session.h"

namespace gk::office {

/// "CL#2": of what two laptops each entered under one name while apart, the second that was
/// entered.
struct Numbered {
  std::string name;
  std::size_t nth; ///< from 1 on
};
std::optional<Numbered> numbered(const std::string& word);
/// "CL#1 (Nov 17, 2026, 7:42 AM, laptop ...1a2b), CL#2 (...)"; `rows` oldest first.
std::string numbers(const std::string& name, const std::vector<base::Stamp>& rows);

/// For --passphrase-file, --by, --pin-file and --laptop-folder, the same in every verb that takes
/// them.
Option passphraseOption();
Option byOption();
Option pinOption();
Option laptopOption();

/// What a merge does only when it is said; with the options that say it.
std::vector<Option> withAgreement(std::vector<Option> others);
base::Result<session::Agreed> agreedIn(session::Session& session, const Call& call,
                                       const Surroundings& around);
inline constexpr std::string_view copiesJoined =
    "Copies of one laptop are joined; nothing in either is lost. check lists it.";
Option clockOption();

/// What this computer remembers of its logbooks: in the folder of --laptop-folder, else in
/// ~/.config/groovekeeper (XDG_CONFIG_HOME is heeded).
base::Result<session::HandMemory> thisLaptop(const Call& call, const Surroundings& around);

/// The first operand as a book, only to be read; fails as Session::open.
base::Result<session::Session> openToRead(const Call& call, const Surroundings& around);

/// The first operand as a book to write in. A clock that cannot be right, and
/// a copy that this laptop did not leave so, are noted on `err`.
base::Result<session::Session> openToWrite(const Call& call, const Surroundings& around);

/// The first line of the file of --passphrase-file, else of GROOVEKEEPER_PASSPHRASE_FILE; fails as
/// base::readFirstLine. None when neither is given.
base::Result<std::optional<std::string>> passphrase(const Call& call, const Surroundings& around);
/// As above, but none is `callMalformed` too.
base::Result<std::string> passphraseNeeded(const Call& call, const Surroundings& around);

/// Whose act it is: the member whose initials --by gives; no one while a program is set up. One
/// who has a PIN gives it, by --pin-file or GROOVEKEEPER_PIN_FILE, with the passphrase: a PIN is
/// sealed with the names.
base::Result<base::By> author(session::Session& session, const Call& call,
                              const Surroundings& around);
/// That PIN again, of the author, for an act that asks for it; none where she has none.
base::Result<session::OwnPin> ownPin(session::Session& session, const base::By& by,
                                     const Call& call, const Surroundings& around);

/// By initials, name and code; `notFound` lists those that there are.
base::Result<base::Recorded<roster::Member>> memberCalled(session::Session& session,
                                                          const std::string& initials);
base::Result<base::Recorded<roster::Term>> termCalled(session::Session& session,
                                                      const std::string& name);
/// The lots of the number of `--lot`, all of one material: several where laptops entered it apart.
/// Makers' numbers may meet, so `callMalformed` names the materials until `--material` says which;
/// `notFound` when there is none.
base::Result<std::vector<base::Recorded<kit::Lot>>> lotsWanted(session::Session& session,
                                                               const Call& call);
Option materialOption();
/// `notFound` when there is none; `ruleLight` where two laptops gave one tag to two lights.
base::Result<base::Recorded<kit::Light>> lightTagged(session::Session& session,
                                                     const std::string& tag);

base::Result<base::Recorded<roster::School>> schoolCoded(session::Session& session,
                                                         const std::string& code);
/// By the number of the slip, with its check digit.
base::Result<roster::ChildId> childNumbered(session::Session& session, const std::string& text);

} // namespace gk::office
