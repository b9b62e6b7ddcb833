#include "reports/workbook/zip_writer.h"

#include <memory>
#include <zip.h>

namespace gk::reports {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

struct FreeSource {
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};
struct Discard {
  void operator()(zip_t* archive) const { zip_discard(archive); }
};

Error notMade() {
  return {ErrorCode::fileUnwritable, "the workbook could not be made; nothing was written"};
}

/// What the archive became, from the memory it was written to.
Result<std::string> bytesOf(zip_source_t* source) {
  zip_stat_t stat;
  zip_stat_init(&stat);
  if (zip_source_stat(source, &stat) != 0 || (stat.valid & ZIP_STAT_SIZE) == 0) return notMade();
  std::string bytes(static_cast<std::size_t>(stat.size), '\0');
  if (zip_source_open(source) != 0) return notMade();
  const auto read = zip_source_read(source, bytes.data(), bytes.size());
  zip_source_close(source);
  if (read < 0 || static_cast<std::size_t>(read) != bytes.size()) return notMade();
  return bytes;
}

} // namespace

Result<std::string> zipped(const std::vector<std::pair<std::string, std::string>>& files) {
  constexpr zip_uint16_t newYear1980 = (0U << 9U) | (1U << 5U) | 1U;
  const std::unique_ptr<zip_source_t, FreeSource> memory(
      zip_source_buffer_create(nullptr, 0, 0, nullptr));
  if (!memory) return notMade();
  // The archive takes one hold of the memory with it; the other is kept to read it.
  zip_source_keep(memory.get());
  std::unique_ptr<zip_t, Discard> archive(
      zip_open_from_source(memory.get(), ZIP_CREATE | ZIP_TRUNCATE, nullptr));
  if (!archive) {
    zip_source_free(memory.get());
    return notMade();
  }
  for (const auto& [name, text] : files) {
    auto* part = zip_source_buffer(archive.get(), text.data(), text.size(), 0);
    if (!part) return notMade();
    const auto at = zip_file_add(archive.get(), name.c_str(), part, ZIP_FL_ENC_UTF_8);
    if (at < 0) {
      zip_source_free(part);
      return notMade();
    }
    const auto index = static_cast<zip_uint64_t>(at);
    if (zip_file_set_dostime(archive.get(), index, 0, newYear1980, 0) != 0) return notMade();
  }
  if (zip_close(archive.get()) != 0) return notMade();
  static_cast<void>(archive.release()); // closed
  return bytesOf(memory.get());
}

} // namespace gk::reports
