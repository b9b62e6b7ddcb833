#include "support/packed.h"

#include "base/contract.h"

#include <array>
#include <zip.h>

namespace gk::test {

std::string packed(const Parts& parts) {
  zip_error_t trouble;
  zip_error_init(&trouble);
  auto* buffer = zip_source_buffer_create(nullptr, 0, 0, &trouble);
  zip_source_keep(buffer);
  auto* archive = zip_open_from_source(buffer, ZIP_TRUNCATE, &trouble);
  base::require(archive != nullptr, "a package in memory");
  for (const auto& [name, text] : parts) {
    auto* source = zip_source_buffer(archive, text.data(), text.size(), 0);
    base::require(zip_file_add(archive, name.c_str(), source, ZIP_FL_OVERWRITE) >= 0, "a part");
  }
  base::require(zip_close(archive) == 0 && zip_source_open(buffer) == 0, "a whole package");
  std::string bytes;
  std::array<char, 4096> piece{};
  for (zip_int64_t got = 0; (got = zip_source_read(buffer, piece.data(), piece.size())) > 0;)
    bytes.append(piece.data(), static_cast<std::size_t>(got));
  zip_source_close(buffer);
  zip_source_free(buffer);
  return bytes;
}

} // namespace gk::test
