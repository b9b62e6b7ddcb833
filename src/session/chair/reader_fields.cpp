#include "session/session_write.h"

#include <algorithm>
#include <array>
#include <functional>

namespace gk::session {

using store::rowsOf;
using store::subjectIs;

namespace {

/// One thing that happened to a field, to be played back in the order of entry.
struct Event {
  base::EntryId at;
  std::function<void(chairside::Protocol&)> play;
};

} // namespace

Result<FieldState> Reader::fieldState(chairside::FieldId id) {
  auto field = only<chairside::Field>(subjectIs(id), "field");
  if (!field) return field.error();
  auto program = this->program();
  if (!program) return program.error();
  auto sealant = only<kit::Lot>(subjectIs(field->value.sealant), "sealant lot");
  if (!sealant) return sealant.error();
  chairside::ProtocolRules rules{program->value.times, sealant->value.kind, {}};
  if (field->value.etchant) {
    auto etchant = only<kit::Lot>(subjectIs(*field->value.etchant), "etchant lot");
    if (!etchant) return etchant.error();
    rules.makersEtch = etchant->value.makersTime;
  }
  auto runs = book_.current<chairside::StepRun>(rowsOf("field", id));
  if (!runs) return runs.error();
  auto wets = book_.current<chairside::Wet>(rowsOf("field", id));
  if (!wets) return wets.error();
  auto placed = book_.current<chairside::Placement>(rowsOf("field", id));
  if (!placed) return placed.error();
  auto timers = book_.current<chairside::TimerStart>(rowsOf("field", id));
  if (!timers) return timers.error();

  std::vector<Event> events;
  for (const auto& run : *runs)
    events.push_back({run.stamp.entry, [&](chairside::Protocol& p) { p.apply(run.value); }});
  for (const auto& timer : *timers)
    events.push_back({timer.stamp.entry, [&](chairside::Protocol& p) { p.apply(timer.value); }});
  for (const auto& wet : *wets)
    events.push_back({wet.stamp.entry, [&](chairside::Protocol& p) { p.apply(wet.value); }});
  for (const auto& left : *placed)
    if (left.value.attempt != chairside::Attempt::complete)
      events.push_back({left.stamp.entry,
                        [&](chairside::Protocol& p) { p.stop(std::array{left.value.tooth}); }});
  std::ranges::sort(events, {}, &Event::at);

  FieldState state{*field, chairside::Protocol(field->value, rules), {}};
  for (const auto& event : events)
    event.play(state.protocol);
  if (!timers->empty()) {
    const auto& last = timers->back();
    const bool ended = std::ranges::any_of(*runs, [&](const auto& run) {
      return run.value.timer == last.id || run.stamp.entry > last.stamp.entry;
    });
    if (!ended) state.running = last;
  }
  return state;
}

Result<std::vector<FieldState>> Reader::fields(roster::ChildId child, roster::DayId day) {
  auto rows = book_.current<chairside::Field>(rowsOf("child", child, "day", day));
  if (!rows) return rows.error();
  std::vector<FieldState> states;
  for (const auto& row : *rows) {
    auto state = fieldState(row.id);
    if (!state) return state.error();
    states.push_back(std::move(*state));
  }
  return states;
}

} // namespace gk::session
