#pragma once

#include "session/computers.h"

#include <algorithm>
#include <memory>
#include <set>

namespace gk::test {

/// Rows that are the file's own, not of the history: which key it seals with where two were set
/// while apart.
inline bool isOfFile(const std::string& row) {
  return row.starts_with("book|") || row.starts_with("key_wrap|") || row.starts_with("ended_wrap|");
}

/// What was lost, but for what an erasure took out and the listing of that.
inline std::vector<std::string> lostFrom(const std::set<std::string>& all,
                                         const std::vector<std::string>& entered) {
  const std::set<std::string> here(entered.begin(), entered.end());
  std::set<std::string> erased;
  for (const auto& row : entered)
    if (row.starts_with("erased_entry|")) erased.insert(row.substr(13, 36));
  std::vector<std::string> lost;
  for (const auto& row : all) {
    const auto first = row.substr(row.find('|') + 1, 36);
    if (here.contains(row) || isOfFile(row) || row.starts_with("child_salt|")) continue;
    if (!erased.contains(first)) lost.push_back(row);
  }
  return lost;
}

/// All that the pages show of a logbook, and all that they ask.
inline std::string viewsOf(County& county, const base::Path& path) {
  auto book = must(session::Session::open(path, base::LaptopId(base::Uuid{}),
                                          {county.clinic.clock, county.clinic.random},
                                          store::Access::readOnly, session::BookKind::throwaway));
  std::string words;
  // Two keys that were set while apart each show the names that are theirs.
  for (const auto& passphrase : *county.passphrases) {
    if (!book.unlock(passphrase)) continue;
    for (const auto& [child, name] : must(book.names()))
      words += '\n' + passphrase + ' ' + child.text() + ' ' + name;
    book.lock();
  }
  unlockNewest(book, *county.passphrases);
  for (const auto& [child, name] : must(book.names())) {
    words += '\n' + must(book.child(child)).value.number + must(book.child(child)).value.room;
    for (const auto& flag : must(book.flags(child)))
      words += ' ' + flag.value.detail + ' ' + flag.stamp.laptop.text();
    for (const auto& form : must(book.consents(child)))
      words += ' ' + form.value.note;
    for (const auto& join : must(book.joinsOf(child)))
      words += " with " + join.value.other.text();
  }
  const auto records = must(book.dayRecords(county.clinic.day));
  const auto sheet = reports::closeOut(records, must(book.names(records)));
  for (const auto& question : sheet.questions) {
    words += "\n?" + question.shown + question.what;
    for (const auto& side : question.sides)
      words += '|' + side.words;
    for (const auto& line : question.lines)
      words += ' ' + line.what;
  }
  for (const auto& table : reports::closeOutTables(sheet))
    words += '\n' + reports::toText(std::span(&table, 1));
  const auto term = must(book.termRecords(county.clinic.term, *base::Date::parse("2026-12-18")));
  for (const auto& table : reports::termTables(reports::termTotals(term)))
    words += '\n' + reports::toText(std::span(&table, 1));
  for (const auto& line : must(book.copiedLines()))
    words += '\n' + line;
  for (const auto& late : must(book.lateOnCards()))
    words += "\nlate " + late.kept.text() + late.other.text() + std::to_string(late.entries);
  for (const auto& erased : must(book.erasures()))
    words += '\n' + erased.record.value.number + ' ' + erased.words();
  for (const auto& act : must(book.bookActs()))
    words += '\n' + act;
  for (const auto& key : must(book.keyReplacements()))
    words += '\n' + key.words();
  return words;
}

/// Every order, and each logbook twice: nothing is lost, nothing is there twice, and all say the
/// same.
inline void allOrdersAgree(County& county, std::vector<base::Path> files,
                           std::size_t mostOrders = 24) {
  std::ranges::sort(files);
  std::set<std::string> all;
  for (const auto& file : files)
    for (auto& row : contentIn(file, Called::atEntry))
      all.insert(std::move(row));
  std::set<std::vector<std::string>> contents;
  std::set<std::string> views;
  std::size_t orders = 0;
  const bool isSample = mostOrders <= files.size();
  do {
    const auto path = mergedFrom(county, files);
    auto content = contentIn(path);
    std::erase_if(content, isOfFile);
    contents.insert(std::move(content));
    views.insert(viewsOf(county, path));
    if (contents.size() == 1 && orders > 0) continue;
    const auto entered = contentIn(path, Called::atEntry);
    CHECK(lostFrom(all, entered).empty());
    // Two copies that write in one millisecond enter rows of one identity; their acts differ.
    const auto twice = std::ranges::adjacent_find(entered, [](const auto& one, const auto& other) {
      return one == other && one.starts_with("act|");
    });
    CHECK(twice == entered.end());
    // Of a sample each file is the first once: what is merged into which is what matters most.
    if (isSample) std::ranges::rotate(files, files.begin() + 1);
  } while (++orders < mostOrders && (isSample || std::ranges::next_permutation(files).found));
  CHECK(contents.size() == 1);
  CHECK(views.size() == 1);
}

} // namespace gk::test
