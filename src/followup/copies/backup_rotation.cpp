#include "followup/copies/backup_rotation.h"

#include "base/text/text.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace gk::followup {

namespace {

constexpr std::string_view ending = ".gkbook";
constexpr std::size_t isoLength = 10;

std::string beginning(const BackupOwner& owner) {
  return owner.book + "-backup-";
}

} // namespace

std::string backupFileName(const BackupOwner& owner, base::Date on) {
  return beginning(owner) + on.iso() + "-" + owner.laptop + std::string(ending);
}

std::optional<BackupFile> parseBackupName(std::string_view name, const BackupOwner& owner) {
  const auto first = beginning(owner);
  if (!name.starts_with(first) || !name.ends_with(ending)) return std::nullopt;
  auto rest = name.substr(first.size());
  const auto date = base::Date::parse(rest.substr(0, isoLength));
  if (!date) return std::nullopt;
  rest.remove_prefix(isoLength);
  const auto laptop = "-" + owner.laptop;
  if (!rest.starts_with(laptop)) return std::nullopt;
  rest = rest.substr(laptop.size(), rest.size() - laptop.size() - ending.size());
  BackupFile file{std::string(name), *date};
  if (rest.empty()) return file;
  const auto number = base::parseInt(rest.substr(1));
  constexpr std::int64_t most = 9999;
  if (rest.front() != '-' || !number || *number < 2 || *number > most ||
      rest.substr(1) != std::to_string(*number))
    return std::nullopt;
  file.number = static_cast<int>(*number);
  return file;
}

std::vector<std::string> outdatedBackups(std::vector<BackupFile> ours, std::string_view written,
                                         int days) {
  if (std::ranges::find(ours, written, &BackupFile::name) == ours.end()) return {};
  std::ranges::sort(ours, std::greater(),
                    [](const auto& one) { return std::tie(one.on, one.number); });
  std::vector<std::string> out;
  std::set<base::Date> kept;
  std::set<std::pair<int, unsigned>> months;
  for (const auto& one : ours) {
    const bool isDays = std::ssize(kept) < days && kept.insert(one.on).second;
    const bool isMonths = months.emplace(one.on.year(), one.on.month()).second;
    if (!isDays && !isMonths && one.name != written) out.push_back(one.name);
  }
  return out;
}

} // namespace gk::followup
