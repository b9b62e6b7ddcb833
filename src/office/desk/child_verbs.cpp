#include "followup/display_names.h"
#include "office/call/adding.h"

#include <algorithm>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;
using session::Session;

namespace {

/// Children are told by number: nothing that is printed here holds a name.
Option childOption() {
  return {"--child", "NUMBER", "as on the slip", true};
}

Result<Exit> confirmChild(const Call& call, const Surroundings& around) {
  const auto number = call.text("--child");
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto child = childNumbered(session, number);
    if (!child) return child.error();
    const auto done = session.confirmProvisional(by, *child, call.text("--reason"));
    if (!done) return done.error();
    return "student " + number + " is on the roster";
  });
}

Result<Exit> moveChild(const Call& call, const Surroundings& around) {
  const auto number = call.text("--child");
  if (!call.has("--school") && !call.has("--grade") && !call.has("--room"))
    return Error{ErrorCode::callMalformed, "move-child: say --school, --grade, --room or several"};
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto child = childNumbered(session, number);
    if (!child) return child.error();
    const auto old = session.child(*child);
    if (!old) return old.error();
    auto school = old->value.school;
    if (const auto code = call.textIfAny("--school")) {
      const auto found = schoolCoded(session, *code);
      if (!found) return found.error();
      school = found->id;
    }
    const auto grade = call.textIfAny("--grade").value_or(old->value.grade);
    const auto room = call.textIfAny("--room").value_or(old->value.room);
    const auto done = session.moveChild(by, *child, school, grade, room, call.text("--reason"));
    if (!done) return done.error();
    return "student " + number + " moved; where the student was stays in the history";
  });
}

Result<Exit> leaveProgram(const Call& call, const Surroundings& around) {
  const auto number = call.text("--child");
  const auto why = wordOf<roster::LeftBecause>("--because", base::folded(call.text("--because")));
  if (!why) return why.error();
  const auto from = call.date("--from");
  if (!from) return from.error();
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto child = childNumbered(session, number);
    if (!child) return child.error();
    const roster::Leaving left{from->value_or(around.clock.now().date()), *why};
    const auto words = call.textIfAny("--reason").value_or("");
    const auto done = session.leaveProgram(by, {*child}, left, words);
    if (!done) return done.error();
    return "student " + number + " left the program on " + left.from.words() + ": " +
           std::string(base::displayName(left.why)) + "; the records stay and count";
  });
}

Result<Exit> comeBack(const Call& call, const Surroundings& around) {
  const auto number = call.text("--child");
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto child = childNumbered(session, number);
    if (!child) return child.error();
    const auto done = session.comeBack(by, *child, call.text("--reason"));
    if (!done) return done.error();
    return "student " + number + " is back in the program";
  });
}

std::string formWords(const base::Recorded<roster::Consent>& form) {
  return std::string(base::displayName(form.value.state)) +
         (form.value.signedOn ? ", signed " + form.value.signedOn->words() : ", without a date");
}

/// The form of that term, the one signed on --was-signed when there are several.
Result<base::Recorded<roster::Consent>> formWanted(Session& session, const Call& call,
                                                   roster::ChildId child) {
  const auto term = termCalled(session, call.text("--term"));
  if (!term) return term.error();
  const auto was = call.date("--was-signed");
  if (!was) return was.error();
  auto forms = session.consents(child);
  if (!forms) return forms.error();
  std::erase_if(*forms, [&](const auto& form) {
    return form.value.term != term->id || (*was && form.value.signedOn != *was);
  });
  if (forms->size() == 1) return std::move(forms->front());
  if (forms->empty())
    return Error{ErrorCode::notFound,
                 "there is no such form of that student in " + term->value.name};
  std::vector<std::string> words;
  for (const auto& form : *forms)
    words.push_back(formWords(form));
  return Error{ErrorCode::callMalformed,
               "there are " + base::counted(forms->size(), "form", "forms") +
                   " of that student in " + term->value.name + " (" + base::join(words, "; ") +
                   "); say which with --was-signed YYYY-MM-DD"};
}

Result<roster::Consent> consentOf(const Call& call, roster::Consent form) {
  const auto word = [&]<class E>(std::string_view option, E& value) -> Result<base::Done> {
    const auto text = call.textIfAny(option);
    if (!text) return base::Done{};
    const auto read = wordOf<E>(option, base::folded(*text));
    if (!read) return read.error();
    value = *read;
    return base::Done{};
  };
  if (const auto read = word("--state", form.state); !read) return read.error();
  if (const auto read = word("--signer", form.signer); !read) return read.error();
  if (const auto read = word("--history", form.history); !read) return read.error();
  if (const auto list = call.textIfAny("--services")) {
    if (base::folded(*list) == "all") {
      form.allowed = roster::ServiceSet::all();
    } else {
      const auto services = wordsOf<roster::Service>("--services", base::folded(*list));
      if (!services) return services.error();
      form.allowed = *services;
    }
  }
  for (const auto& [option, into] : {std::pair("--signed-on", &form.signedOn),
                                     {"--received-on", &form.receivedOn},
                                     {"--valid-from", &form.validFrom},
                                     {"--valid-until", &form.validUntil}}) {
    const auto date = call.date(option);
    if (!date) return date.error();
    if (*date) *into = *date;
  }
  if (call.has("--signer-reviewed")) form.signerReviewed = true;
  form.note = call.textIfAny("--note").value_or(form.note);
  return form;
}

Result<Exit> correctForm(const Call& call, const Surroundings& around) {
  const auto number = call.text("--child");
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto child = childNumbered(session, number);
    if (!child) return child.error();
    const auto old = formWanted(session, call, *child);
    if (!old) return old.error();
    const auto form = consentOf(call, old->value);
    if (!form) return form.error();
    const auto done = session.correctConsent(by, *old, *form, call.text("--reason"));
    if (!done) return done.error();
    return "the form of student " + number + ": " + std::string(base::displayName(form->state)) +
           "; the previous entry stays in the history";
  });
}

Result<Exit> resolveAlert(const Call& call, const Surroundings& around) {
  const auto number = call.text("--child");
  const auto kind = wordOf<roster::FlagKind>("--alert", base::folded(call.text("--alert")));
  if (!kind) return kind.error();
  return noting(call, around, [&](Session& session, base::By by) -> Result<std::string> {
    const auto child = childNumbered(session, number);
    if (!child) return child.error();
    auto flags = session.flags(*child);
    if (!flags) return flags.error();
    std::erase_if(*flags,
                  [&](const auto& row) { return row.value.kind != *kind || row.value.resolved; });
    const auto words = std::string(base::displayName(*kind));
    if (flags->empty())
      return Error{ErrorCode::notFound, "student " + number + " has no open alert: " + words};
    for (const auto& flag : *flags) {
      const auto own = ownPin(session, by, call, around);
      if (!own) return own.error();
      if (const auto done = session.resolveFlag(by, flag, call.text("--decided"), *own); !done)
        return done.error();
    }
    return "alert of student " + number + " resolved: " + words;
  });
}

} // namespace

std::vector<Verb> childVerbs() {
  return {
      {{"confirm-child", "FILE", "confirms a student known only from a form",
        writing({childOption(), {"--reason", "TEXT", "how the school confirmed it", true}})},
       confirmChild},
      {{"move-child", "FILE",
        "moves a student to another school, grade or room; earlier ones stay in the history",
        writing({childOption(),
                 {"--school", "CODE", "where the student goes now"},
                 {"--grade", "GRADE", "K, 1 to 12"},
                 {"--room", "TEXT", "the room"},
                 {"--reason", "TEXT", "why", true}})},
       moveChild},
      {{"leave-program", "FILE",
        "takes a student off lists from a date on, and no form is chased; all records stay",
        writing({childOption(),
                 {"--because", "WORD", "moved away, graduated, withdrawn or other", true},
                 {"--reason", "TEXT", "in words, without a name; needed for other"},
                 {"--from", "DATE", "the first day without the student (today)"}})},
       leaveProgram},
      {{"come-back", "FILE", "a student who had left the program is back",
        writing({childOption(), {"--reason", "TEXT", "how it is known", true}})},
       comeBack},
      {{"correct-consent", "FILE", "corrects a form that was typed wrong",
        writing({childOption(),
                 {"--term", "NAME", "the term of the form", true},
                 {"--was-signed", "DATE", "which form, when the term has several"},
                 {"--state", "WORD", "yes, yes with limits, no, incomplete ..."},
                 {"--services", "WORDS", "all, or separated by commas; replaces the earlier ones"},
                 {"--signer", "WORD", "parent, legal guardian, foster agency, other ..."},
                 {"--signer-reviewed", "", "the other signer was reviewed"},
                 {"--signed-on", "DATE", "when it was signed"},
                 {"--received-on", "DATE", "when it came back"},
                 {"--valid-from", "DATE", "its first day"},
                 {"--valid-until", "DATE", "its last day"},
                 {"--history", "WORD", "health history: yes, partly, no"},
                 {"--note", "TEXT", "limits of teeth or materials"},
                 {"--reason", "TEXT", "what was wrong", true}})},
       correctForm},
      {{"resolve-alert", "FILE", "closes a medical alert with what was decided",
        writing({childOption(),
                 {"--alert", "WORD", "latex allergy, asthma, recent illness ...", true},
                 {"--decided", "TEXT", "what was decided, and by whom", true}})},
       resolveAlert},
  };
}

} // namespace gk::office
