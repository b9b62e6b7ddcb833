#pragma once

#include "base/enum_names.h"
#include "base/text/text.h"
#include "office/call/opening.h"
#include "office/call/verbs.h"
#include "office/tables/json_writer.h"

namespace gk::office {

/// The options of a verb that writes: its own, then --by, --pin-file and --laptop-folder.
inline std::vector<Option> writing(std::vector<Option> own) {
  own.push_back(byOption());
  own.push_back(pinOption());
  own.push_back(laptopOption());
  own.push_back(clockOption());
  return own;
}

/// One word of E; `textMalformed` names the option and the words that would have been right.
template <class E>
base::Result<E> wordOf(std::string_view option, std::string_view word) {
  const auto value = base::parseName<E>(word);
  if (value) return *value;
  return base::Error{value.error().code, std::string(option) + ": " + value.error().detail};
}

/// Words of E between commas, as a set; fails as wordOf.
template <class E>
base::Result<base::EnumSet<E>> wordsOf(std::string_view option, std::string_view list) {
  base::EnumSet<E> set;
  if (base::trim(list).empty()) return set;
  for (const auto word : base::split(list, ',')) {
    const auto value = wordOf<E>(option, base::trim(word));
    if (!value) return value.error();
    set.add(*value);
  }
  return set;
}

/// Opens the first operand, adds what `add(session, by)` adds, and tells its identity.
template <class Add>
base::Result<Exit> adding(std::string_view what, const std::string& name, const Call& call,
                          const Surroundings& around, Add add) {
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  const auto id = add(*session, *by);
  if (!id) return id.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("added", what);
    json.field("name", name);
    json.field("id", id->text());
    json.endObject();
  } else {
    around.out << "Added " << what << ' ' << name << ".\n";
  }
  return Exit::fine;
}

/// Opens the first operand, does `work(session, by)`, and tells the words that it gives.
template <class Work>
base::Result<Exit> noting(const Call& call, const Surroundings& around, Work work) {
  auto session = openToWrite(call, around);
  if (!session) return session.error();
  const auto by = author(*session, call, around);
  if (!by) return by.error();
  const base::Result<std::string> words = work(*session, *by);
  if (!words) return words.error();
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("noted", *words);
    json.endObject();
  } else {
    around.out << "Noted: " << *words << ".\n";
  }
  return Exit::fine;
}

} // namespace gk::office
