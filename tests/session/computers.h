#pragma once

#include "base/files.h"
#include "reports/day/close_out.h"
#include "session/whole_content.h"

#include <algorithm>
#include <set>

namespace gk::test {

/// A computer with its own folder, clock and memory of hands, and one logbook.
struct Computer {
  base::Path folder;
  base::ManualClock clock;
  base::SeededRandom random;
  base::Machine machine;
  std::optional<session::Session> open{};

  Computer(base::Path where, base::LocalInstant now, std::uint64_t seed)
      : folder(std::move(where)), clock(now),
        random(seed), machine{"computer " + std::to_string(seed), "start"} {
    must(base::makeFolder(folder));
  }
  [[nodiscard]] base::Path book() const { return folder / "day.gkbook"; }

  session::Session& use() {
    if (!open) {
      open.emplace(must(session::Session::open(
          book(), store::HandMemory(folder / "config", machine, random), {clock, random},
          store::Access::readWrite, session::BookKind::throwaway)));
      must(open->unlock(Clinic::passphrase));
    }
    return *open;
  }
  void close() {
    if (open) must(open->finish());
    open.reset();
  }
  /// What is carried away on a stick.
  base::Path copyTo(const base::Path& path) {
    must(use().backUp(path));
    return path;
  }
  void restore(const base::Path& backup) {
    close();
    std::filesystem::remove(book());
    std::filesystem::copy_file(backup, book());
  }
  /// As a disk image on another computer.
  void cloneTo(Computer& other) {
    close();
    other.close();
    std::filesystem::remove_all(other.folder);
    std::filesystem::copy(folder, other.folder, std::filesystem::copy_options::recursive);
  }
};

/// A county's logbook, and what its laptops do to it.
struct County {
  Clinic clinic;
  std::vector<roster::ChildId> children;
  std::vector<std::unique_ptr<Computer>> laptops;
  int notes = 0;

  explicit County(int count) {
    for (const char* name : {"Mina", "Wren", "Lupe"})
      children.push_back(clinic.child(name));
    for (int i = 0; i < count; ++i) {
      laptops.push_back(std::make_unique<Computer>(*clinic.folder / ("laptop" + std::to_string(i)),
                                                   clinic.clock.now(),
                                                   static_cast<std::uint64_t>(100 + i)));
      must(clinic.session.backUp(laptops.back()->book()));
    }
  }
  Computer& at(std::size_t i) { return *laptops[i]; }

  void note(Computer& on, roster::ChildId child) {
    must(on.use().enterFlag(clinic.by, {.child = child,
                                        .kind = roster::FlagKind::other,
                                        .action = roster::FlagAction::note,
                                        .detail = "note " + std::to_string(++notes),
                                        .decided = {}}));
  }
  [[nodiscard]] base::Path fresh(const std::string& name) const {
    return base::freeName(*clinic.folder / (name + ".gkbook"));
  }
};

/// One logbook once all of them are merged into it, in this order.
inline base::Path mergedFrom(County& county, const std::vector<base::Path>& files) {
  const auto path = county.fresh("merged");
  std::filesystem::copy_file(files.front(), path);
  auto merged = must(session::Session::open(
      path, base::LaptopId(base::Uuid{}), {county.clinic.clock, county.clinic.random},
      store::Access::readWrite, session::BookKind::throwaway));
  for (const auto& other : files)
    must(merged.absorb(other, store::Copies::join));
  CHECK(must(merged.findings()).empty());
  must(merged.finish());
  return path;
}

/// All that the pages show of a logbook, and all that they ask.
inline std::string viewsOf(County& county, const base::Path& path) {
  auto book = must(session::Session::open(path, base::LaptopId(base::Uuid{}),
                                          {county.clinic.clock, county.clinic.random},
                                          store::Access::readOnly, session::BookKind::throwaway));
  must(book.unlock(Clinic::passphrase));
  std::string words;
  for (const auto& child : county.children) {
    words += must(book.identity(child)).first + must(book.child(child)).value.room;
    for (const auto& flag : must(book.flags(child)))
      words += ' ' + flag.value.detail + ' ' + flag.stamp.laptop.text();
  }
  const auto records = must(book.dayRecords(county.clinic.day));
  const auto sheet = reports::closeOut(records, must(book.names(records)));
  for (const auto& question : sheet.questions)
    for (const auto& line : question.lines)
      words += '?' + question.shown + question.what + line.what;
  for (const auto& line : must(book.copiedLines()))
    words += '\n' + line;
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
    contents.insert(contentIn(path));
    views.insert(viewsOf(county, path));
    if (contents.size() == 1 && orders > 0) continue;
    const auto entered = contentIn(path, Called::atEntry);
    const bool isWhole = std::set<std::string>(entered.begin(), entered.end()) == all;
    CHECK(isWhole);
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
