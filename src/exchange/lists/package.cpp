#include "exchange/lists/package.h"

#include "base/contract.h"

#include <array>
#include <expat.h>
#include <zip.h>

namespace gk::exchange {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

constexpr std::size_t pieceBytes = std::size_t{64} * 1024;
/// Small parts may pack well without any harm.
constexpr std::size_t freeOfRatio = std::size_t{1024} * 1024;

Error unreadable(std::string_view why) {
  return {ErrorCode::csvMalformed, "the workbook cannot be read: " + std::string(why) +
                                       "; open it in a spreadsheet and save it as CSV (UTF-8)"};
}

struct CloseFile {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};
struct FreeParser {
  void operator()(XML_Parser parser) const { XML_ParserFree(parser); }
};
using Parser = std::unique_ptr<std::remove_pointer_t<XML_Parser>, FreeParser>;

std::string_view withoutPrefix(const char* name) {
  const std::string_view whole(name);
  const auto colon = whole.rfind(':');
  return colon == std::string_view::npos ? whole : whole.substr(colon + 1);
}

/// What the parser's callbacks reach.
struct Hearing {
  PartReader& reader;
  XML_Parser parser;
  int mostDepth;
  int depth = 0;
  std::string trouble{};

  void stop(std::string why) {
    if (trouble.empty()) trouble = std::move(why);
    XML_StopParser(parser, XML_FALSE);
  }
  void heed() {
    if (!reader.trouble().empty()) stop(reader.trouble());
  }
};

Hearing& hearing(void* data) {
  return *static_cast<Hearing*>(data);
}

void XMLCALL onBegin(void* data, const XML_Char* name, const XML_Char** attributes) {
  auto& heard = hearing(data);
  if (++heard.depth > heard.mostDepth) return heard.stop("its parts are nested too deep");
  PartReader::Attributes all;
  for (; *attributes; attributes += 2)
    all.emplace(withoutPrefix(attributes[0]), attributes[1]);
  heard.reader.begin(withoutPrefix(name), all);
  heard.heed();
}

void XMLCALL onEnd(void* data, const XML_Char* name) {
  auto& heard = hearing(data);
  --heard.depth;
  heard.reader.end(withoutPrefix(name));
  heard.heed();
}

void XMLCALL onText(void* data, const XML_Char* words, int length) {
  auto& heard = hearing(data);
  heard.reader.text({words, static_cast<std::size_t>(length)});
  heard.heed();
}

/// Neither format has a document type, and one is what entities are declared in.
void XMLCALL onDoctype(void* data, const XML_Char*, const XML_Char*, const XML_Char*, int) {
  hearing(data).stop("it declares a document type");
}

} // namespace

void Package::Close::operator()(zip* archive) const {
  zip_discard(archive);
}

bool isPacked(std::string_view bytes) {
  return bytes.starts_with("PK\x03\x04");
}

Result<Package> Package::open(std::string_view bytes, const WorkbookLimits& limits) {
  zip_error_t trouble;
  zip_error_init(&trouble);
  auto* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &trouble);
  if (!source) {
    zip_error_fini(&trouble);
    return unreadable("there is no memory for it");
  }
  auto* opened = zip_open_from_source(source, ZIP_RDONLY, &trouble);
  zip_error_fini(&trouble);
  if (!opened) {
    zip_source_free(source);
    return unreadable("the file is damaged");
  }
  std::unique_ptr<zip, Close> archive(opened);
  const auto files = zip_get_num_entries(archive.get(), 0);
  if (files < 0 || static_cast<std::size_t>(files) > limits.files)
    return unreadable("it holds too many files");
  return Package(std::move(archive), limits);
}

bool Package::has(const std::string& part) const {
  return zip_name_locate(archive_.get(), part.c_str(), 0) >= 0;
}

Result<base::Done> Package::read(const std::string& part, PartReader& reader) {
  zip_stat_t stat;
  zip_stat_init(&stat);
  if (zip_stat(archive_.get(), part.c_str(), 0, &stat) != 0 ||
      (stat.valid & ZIP_STAT_COMP_SIZE) == 0)
    return unreadable("a part of it is missing");
  if ((stat.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && stat.encryption_method != ZIP_EM_NONE)
    return unreadable("it has a password");
  const std::unique_ptr<zip_file_t, CloseFile> file(zip_fopen(archive_.get(), part.c_str(), 0));
  const Parser parser(XML_ParserCreate(nullptr));
  if (!file || !parser) return unreadable("a part of it cannot be opened");
  Hearing heard{reader, parser.get(), limits_.depth};
  XML_SetUserData(parser.get(), &heard);
  XML_SetElementHandler(parser.get(), onBegin, onEnd);
  XML_SetCharacterDataHandler(parser.get(), onText);
  XML_SetStartDoctypeDeclHandler(parser.get(), onDoctype);

  // What the package says of sizes is not trusted: what comes out is counted.
  std::size_t ofPart = 0;
  std::vector<char> piece(pieceBytes);
  while (true) {
    const auto got = zip_fread(file.get(), piece.data(), piece.size());
    if (got < 0) return unreadable("a part of it is damaged");
    ofPart += static_cast<std::size_t>(got);
    unpacked_ += static_cast<std::size_t>(got);
    const bool isBomb = ofPart > freeOfRatio && ofPart / limits_.ratio > stat.comp_size;
    if (unpacked_ > limits_.bytes || isBomb) return unreadable("it unpacks to too much");
    const auto status = XML_Parse(parser.get(), piece.data(), static_cast<int>(got), got == 0);
    if (!heard.trouble.empty()) return unreadable(heard.trouble);
    if (status == XML_STATUS_ERROR) return unreadable("a part of it is no XML");
    if (got == 0) return base::Done{};
  }
}

} // namespace gk::exchange
