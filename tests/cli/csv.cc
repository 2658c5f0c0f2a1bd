#include "cli/csv.h"

#include <stdexcept>

namespace drystage::testing {
namespace {

class Reader {
 public:
  explicit Reader(const std::string& text) : text_(text) {}

  std::vector<Row> read() {
    std::vector<Row> rows;
    while (at_ < text_.size()) {
      rows.push_back(row());
      if (rows.back().size() != rows.front().size()) fail("a row of another length");
    }
    return rows;
  }

 private:
  Row row() {
    Row out{field()};
    while (at_ < text_.size() && text_[at_] == ',') {
      ++at_;
      out.push_back(field());
    }
    if (text_.compare(at_, 2, "\r\n") != 0) fail("a line end other than CR LF");
    at_ += 2;
    return out;
  }

  std::string field() { return at_ < text_.size() && text_[at_] == '"' ? quoted() : plain(); }

  std::string plain() {
    const std::size_t end = text_.find_first_of(",\"\r\n", at_);
    if (end == std::string::npos) fail("no last line end");
    if (text_[end] == '"') fail("a quote in a field without quotes");
    std::string out = text_.substr(at_, end - at_);
    at_ = end;
    return out;
  }

  std::string quoted() {
    std::string out;
    for (++at_; at_ < text_.size(); ++at_) {
      if (text_[at_] != '"') {
        out += text_[at_];
      } else if (text_.compare(at_, 2, "\"\"") == 0) {
        out += '"';
        ++at_;
      } else {
        ++at_;
        return out;
      }
    }
    fail("a field without its last quote");
  }

  [[noreturn]] void fail(const char* what) const {
    throw std::runtime_error(std::string(what) + " at byte " + std::to_string(at_));
  }

  const std::string& text_;
  std::size_t at_ = 0;
};

}  // namespace

std::vector<Row> parse_csv(const std::string& text) { return Reader(text).read(); }

}  // namespace drystage::testing
