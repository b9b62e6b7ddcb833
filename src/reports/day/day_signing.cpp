#include "base/text/text.h"
#include "reports/day/close_out_parts.h"
#include "reports/day/close_out_words.h"
#include "reports/records/words.h"

#include <algorithm>
#include <map>

namespace gk::reports {

namespace {

/// Whether that signer's key was used; nothing of days from before there were keys.
std::string keyWords(const DayRecords& records, roster::ClosureId closure,
                     roster::Capacity capacity) {
  for (const auto& row : records.daySignatures)
    if (row.value.closure == closure && row.value.capacity == capacity)
      return row.value.key ? "own key" : "by name only, no key";
  return {};
}

} // namespace

std::vector<SigningLine> signingsOf(const DayView& view) {
  const auto& records = view.records;
  // By entry, since what is signed again may be so in the same minute.
  std::map<base::EntryId, SigningLine> lines;
  for (const auto& row : records.signatures) {
    const auto clinical = keyWords(records, row.id, roster::Capacity::clinical);
    const auto complete = keyWords(records, row.id, roster::Capacity::completeness);
    SigningLine line{.reopened = false,
                     .at = row.stamp.at,
                     .who = view.initials(row.value.clinical) + " (clinical" +
                            (clinical.empty() ? "" : ", " + clinical) + "), " +
                            view.initials(row.value.coordinator) +
                            (complete.empty() ? "" : " (" + complete + ")")};
    if (const auto code = records.sheetCodes.find(row.id); code != records.sheetCodes.end())
      line.code = code->second;
    lines.emplace(row.stamp.entry, std::move(line));
  }
  for (const auto& row : records.reopenings)
    lines.emplace(
        row.stamp.entry,
        SigningLine{true, row.stamp.at, view.initials(row.stamp.by.author), row.value.reason});
  std::vector<SigningLine> out;
  for (auto& [entry, line] : lines)
    out.push_back(std::move(line));
  return out;
}

std::vector<LateEntry> lateEntriesOf(const DayView& view) {
  std::vector<LateEntry> out;
  for (const auto& row : view.records.addenda)
    out.push_back({row.stamp.at, row.value.child,
                   row.value.child ? view.shown(*row.value.child) : std::string(), row.value.text,
                   view.initials(row.stamp.by.author)});
  std::ranges::stable_sort(out, {}, &LateEntry::at);
  return out;
}

std::vector<ConfirmedLine> confirmedOf(const DayView& view) {
  std::map<base::MemberId, ConfirmedLine> lines;
  for (const auto& row : view.records.placements) {
    const auto who = row.value.placedBy;
    auto& line = lines.try_emplace(who, ConfirmedLine{who, view.initials(who)}).first->second;
    ++line.placed;
    if (view.records.confirmed.contains(row.stamp.entry)) ++line.confirmed;
  }
  std::vector<ConfirmedLine> out;
  for (auto& [who, line] : lines)
    out.push_back(std::move(line));
  std::ranges::stable_sort(out, {}, &ConfirmedLine::who);
  return out;
}

std::string unconfirmedWords(const CloseOut& day) {
  int placed = 0;
  int open = 0;
  std::vector<std::string> who;
  for (const auto& line : day.confirmed) {
    placed += line.placed;
    open += line.open();
    if (line.open() > 0) who.push_back(line.who + " " + std::to_string(line.open()));
  }
  if (open == 0) return {};
  return std::to_string(open) + " of " + counted(placed, "placement", "placements") +
         " not confirmed: " + base::join(who, ", ");
}

std::vector<std::string> signingWords(const CloseOut& day) {
  std::vector<std::string> out;
  for (const auto& line : day.signings) {
    const auto when = line.at.date().words() + " at " + line.at.clockWords();
    const auto by = line.who.empty() ? std::string() : " by " + line.who;
    if (line.reopened)
      out.push_back("Reopened on " + when + by + " because: " + line.reason);
    else
      out.push_back((out.empty() ? "Signed on " : "Signed again on ") + when + by +
                    (line.code.empty() ? "" : ". Code of this sheet: " + line.code));
  }
  return out;
}

std::string backupWords(const std::vector<LaptopLine>& laptops) {
  const auto missing =
      std::ranges::count_if(laptops, [](const LaptopLine& laptop) { return !laptop.isBackedUp(); });
  if (missing == 0) return {};
  if (laptops.size() == 1) return "Not backed up yet";
  return "Not backed up yet: " + std::to_string(missing) + " of " +
         counted(static_cast<int>(laptops.size()), "laptop", "laptops");
}

std::string verdictOf(const CloseOut& day) {
  const auto backup = backupWords(day.laptops);
  const auto rest = backup.empty() ? std::string(".") : ". " + backup + ".";
  const auto open = counted(day.openThings(), "thing", "things") + " to fix";
  if (day.closed && day.mayClose())
    return "Signed by " + day.signedBy + ". Locked: add a late entry, or reopen the day" + rest;
  if (day.closed)
    return "Signed by " + day.signedBy + ", but it no longer adds up: " + open +
           ". Reopen the day" + rest;
  if (day.mayClose()) return "Everything adds up. Ready to sign" + rest;
  const auto difference = day.equation.difference();
  return "Not ready to sign: " + open +
         (difference == 0 ? std::string()
                          : "; students unaccounted for: " + std::to_string(difference)) +
         ".";
}

} // namespace gk::reports
