#include "pdf_reading.h"

#include <array>
#include <cstdio>
#include <fstream>
#include <iterator>

#define POINTERHOLDER_TRANSITION 4  // no transitional pointer type
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFOutlineDocumentHelper.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

namespace ductwright::report {
namespace {

std::string outputOf(const std::string& command) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  if (!pipe) return out;
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) out.append(buffer.data(), got);
  pclose(pipe);
  return out;
}

void collect(QPDFOutlineObjectHelper entry, int level, const std::vector<QPDFPageObjectHelper>& pages, std::vector<OutlineEntry>& out) {
  OutlineEntry made{entry.getTitle(), level, pages.size()};
  for (std::size_t i = 0; i < pages.size(); ++i) {
    if (pages[i].getObjectHandle().getObjGen() == entry.getDestPage().getObjGen()) made.page = i;
  }
  out.push_back(made);
  for (QPDFOutlineObjectHelper kid : entry.getKids()) collect(kid, level + 1, pages, out);
}

}  // namespace

std::vector<std::string> pageTexts(const std::string& path) {
  const std::string all = outputOf("pdftotext -layout '" + path + "' -");
  std::vector<std::string> pages;
  std::size_t start = 0;
  for (std::size_t at = all.find('\f'); at != std::string::npos; at = all.find('\f', start)) {
    pages.push_back(all.substr(start, at - start));
    start = at + 1;
  }
  return pages;
}

std::string fontsOf(const std::string& path) { return outputOf("pdffonts '" + path + "'"); }
std::string informationOf(const std::string& path) { return outputOf("pdfinfo -isodates '" + path + "'"); }

std::vector<OutlineEntry> outlineOf(const std::string& path) {
  QPDF pdf;
  pdf.processFile(path.c_str());
  const auto pages = QPDFPageDocumentHelper(pdf).getAllPages();
  std::vector<OutlineEntry> out;
  for (const QPDFOutlineObjectHelper& entry : QPDFOutlineDocumentHelper(pdf).getTopLevelOutlines()) collect(entry, 0, pages, out);
  return out;
}

std::string bytesOf(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace ductwright::report
