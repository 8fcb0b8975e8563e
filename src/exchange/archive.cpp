#include "archive.h"

#include <zip.h>

#include <algorithm>
#include <optional>

namespace ductwright::exchange {
namespace {

constexpr auto kDamaged = "The workbook is damaged or cut off: export it again.";

zip_int64_t indexOf(zip_t* archive, std::string_view name) {
  while (name.starts_with('/')) name.remove_prefix(1);
  return zip_name_locate(archive, std::string(name).c_str(), ZIP_FL_NOCASE);
}

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

Result<bool> Archive::read(std::string_view name, const Take& take) const {
  const zip_int64_t index = indexOf(m_zip.get(), name);
  if (index < 0) return false;
  zip_stat_t stat;
  zip_stat_init(&stat);
  if (zip_stat_index(m_zip.get(), static_cast<zip_uint64_t>(index), 0, &stat) != 0) return failure(kDamaged);
  const std::unique_ptr<zip_file_t, CloseEntry> file(zip_fopen_index(m_zip.get(), static_cast<zip_uint64_t>(index), 0));
  if (!file) return failure(kDamaged);
  std::string piece(std::size_t{256} << 10, '\0');
  for (std::uint64_t left = stat.size;;) {
    const zip_int64_t got = left == 0 ? 0 : zip_fread(file.get(), piece.data(), std::min<std::uint64_t>(piece.size(), left));
    if (got < 0 || (got == 0 && left > 0)) return failure(kDamaged);
    left -= static_cast<std::uint64_t>(got);
    char beyond = 0;
    if (left == 0 && zip_fread(file.get(), &beyond, 1) != 0) return failure(kDamaged);  // longer than announced, or a wrong checksum
    if (const auto taken = take({piece.data(), static_cast<std::size_t>(got)}, left == 0); !taken) return tl::make_unexpected(taken.error());
    if (left == 0) return true;
  }
}

std::uint64_t Archive::sizeOf(std::string_view name) const {
  const zip_int64_t index = indexOf(m_zip.get(), name);
  zip_stat_t stat;
  zip_stat_init(&stat);
  return index >= 0 && zip_stat_index(m_zip.get(), static_cast<zip_uint64_t>(index), 0, &stat) == 0 ? stat.size : 0;
}

}  // namespace ductwright::exchange
