#include "archive.h"

#include <zip.h>

#include <algorithm>

namespace ductwright::exchange {
namespace {

constexpr auto kDamaged = "The workbook is damaged or cut off: export it again.";

struct CloseEntry {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};

// Why an archive must not be inflated; nothing when it may.
std::optional<std::string> danger(zip_t* archive) {
  const zip_int64_t entries = zip_get_num_entries(archive, 0);
  if (entries > Archive::kMostEntries) return "The workbook has more than 10,000 parts: it is not read.";
  std::uint64_t total = 0;
  for (zip_int64_t i = 0; i < entries; ++i) {
    zip_stat_t stat;
    zip_stat_init(&stat);
    constexpr zip_uint64_t needed = ZIP_STAT_SIZE | ZIP_STAT_COMP_SIZE;
    if (zip_stat_index(archive, static_cast<zip_uint64_t>(i), 0, &stat) != 0 || (stat.valid & needed) != needed) return kDamaged;
    if ((stat.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && stat.encryption_method != ZIP_EM_NONE)
      return "The workbook is encrypted: save it without a password.";
    if (stat.size > Archive::kMostInflated || (total += stat.size) > Archive::kMostInflated)
      return "The workbook would unpack to more than 200 MiB: save the one sheet as CSV.";
    if (stat.size > Archive::kRatioFrom && stat.size / Archive::kMostRatio > stat.comp_size)
      return "A part of the workbook would unpack to more than 100 times its size: it is not read. Save the one sheet as CSV.";
  }
  return std::nullopt;
}

}  // namespace

void Archive::Close::operator()(zip* archive) const { zip_discard(archive); }

Result<Archive> Archive::open(std::string_view bytes) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  if (source == nullptr) return failure(kDamaged);
  zip_t* opened = zip_open_from_source(source, ZIP_RDONLY, &error);
  zip_error_fini(&error);
  if (opened == nullptr) {
    zip_source_free(source);
    return failure(kDamaged);
  }
  Archive archive(opened);
  if (auto why = danger(opened)) return failure(std::move(*why));
  return archive;
}

Result<std::optional<std::string>> Archive::entry(std::string_view name) const {
  while (name.starts_with('/')) name.remove_prefix(1);
  const zip_int64_t index = zip_name_locate(m_zip.get(), std::string(name).c_str(), ZIP_FL_NOCASE);
  if (index < 0) return std::nullopt;
  zip_stat_t stat;
  zip_stat_init(&stat);
  if (zip_stat_index(m_zip.get(), static_cast<zip_uint64_t>(index), 0, &stat) != 0) return failure(kDamaged);
  const std::unique_ptr<zip_file_t, CloseEntry> file(zip_fopen_index(m_zip.get(), static_cast<zip_uint64_t>(index), 0));
  if (!file) return failure(kDamaged);
  std::string out;
  // What is inflated grows with what is really there, not with what the entry announces.
  constexpr std::size_t kStep = std::size_t{1} << 20;
  while (out.size() < stat.size) {
    const std::size_t from = out.size();
    out.resize(from + std::min<std::size_t>(kStep, stat.size - from));
    const zip_int64_t got = zip_fread(file.get(), out.data() + from, out.size() - from);
    if (got <= 0) return failure(kDamaged);
    out.resize(from + static_cast<std::size_t>(got));
  }
  char beyond = 0;
  if (zip_fread(file.get(), &beyond, 1) != 0) return failure(kDamaged);  // longer than announced, or a wrong checksum
  return out;
}

}  // namespace ductwright::exchange
