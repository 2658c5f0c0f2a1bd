#include "plan/text_edit.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "plan/log.h"

namespace drystage::plan {
namespace {

// A text, its layout, and an edit of it.
struct Desk {
  explicit Desk(std::string source)
      : text(std::move(source)), root(read(text)), edit(std::string_view(text)) {}

  static TextPart read(const std::string& text) {
    Log log;
    const auto tree = parse_tree(text, {}, log);
    EXPECT_TRUE(tree) << text;
    return tree ? lay_out(text, *tree) : TextPart{};
  }

  [[nodiscard]] std::string written(const TextPart* piece) const {
    return piece == nullptr ? "nothing" : text.substr(piece->begin, piece->end - piece->begin);
  }

  std::string text;
  TextPart root;
  TextEdit edit;
};

std::string without(const std::string& text, const std::vector<bool>& removed) {
  Desk desk(text);
  desk.edit.change_list(*desk.root.find("cans"), removed, {});
  return desk.edit.result();
}

std::string with(const std::string& text, const std::vector<NewItem>& added) {
  Desk desk(text);
  desk.edit.change_list(*desk.root.find("cans"),
                        std::vector<bool>(desk.root.find("cans")->items.size()), added);
  return desk.edit.result();
}

NewItem item(int after, const std::string& name) { return {after, {{"n", name}}}; }

TEST(TextLayout, FindsTheEndsOfScalarsOfEveryKind) {
  const Desk desk(
      "plain: 20 L   # a comment\n"
      "hash: a#b:c # d\n"
      "colon: 10:30\n"
      "single: 'it''s # no comment'  # one\n"
      "double: \"a \\\" } # b\"\n"
      "lines: one\n"
      "  two\n"
      "\n"
      "  three # end\n"
      "folded: >\n"
      "  # no comment\n"
      "\n"
      "  more\n"
      "# a comment\n"
      "empty:   # nothing\n"
      "nil: ~ # nothing too\n"
      "anchored: &it 5 L\n"
      "last: é ü");
  EXPECT_EQ(desk.written(desk.root.find("plain")), "20 L");
  EXPECT_EQ(desk.written(desk.root.find("hash")), "a#b:c");
  EXPECT_EQ(desk.written(desk.root.find("colon")), "10:30");
  EXPECT_EQ(desk.written(desk.root.find("single")), "'it''s # no comment'");
  EXPECT_EQ(desk.written(desk.root.find("double")), "\"a \\\" } # b\"");
  EXPECT_EQ(desk.written(desk.root.find("lines")), "one\n  two\n\n  three");
  EXPECT_EQ(desk.written(desk.root.find("folded")), ">\n  # no comment\n\n  more");
  EXPECT_EQ(desk.written(desk.root.find("empty")), "");
  EXPECT_EQ(desk.written(desk.root.find("nil")), "~");
  EXPECT_EQ(desk.written(desk.root.find("anchored")), "5 L");
  EXPECT_EQ(desk.written(desk.root.find("last")), "é ü");
}

TEST(TextLayout, FindsTheEndsOfListsAndMaps) {
  const Desk desk(
      "flow: {a: [1, 'x]', {b: \"}\"}],   # } ]\n"
      "  é: ü,\n"
      "  # }\n"
      "  c: two\n"
      "    words, d: }  # the end\n"
      "list:\n"
      "- a: 1\n"
      "  b: {c: 2}   # and\n"
      "-\n"
      "  # about it\n"
      "  a: 3\n"
      "\n"
      "nested:\n"
      "  deep:\n"
      "    - [x, y,\n"
      "       z,]\n"
      "# end\n");
  EXPECT_EQ(desk.written(desk.root.find("flow")),
            "{a: [1, 'x]', {b: \"}\"}],   # } ]\n  é: ü,\n  # }\n  c: two\n    words, d: }");
  EXPECT_EQ(desk.written(desk.root.find("flow")->find("é")), "ü");
  EXPECT_EQ(desk.written(desk.root.find("flow")->find("c")), "two\n    words");
  EXPECT_EQ(desk.written(desk.root.find("list")),
            "- a: 1\n  b: {c: 2}   # and\n-\n  # about it\n  a: 3");
  EXPECT_EQ(desk.written(&desk.root.find("list")->items[1]), "a: 3");
  EXPECT_EQ(desk.written(desk.root.find("nested")), "deep:\n    - [x, y,\n       z,]");
}

TEST(TextEdit, WritesAnotherValueAndNothingElse) {
  Desk desk("a: 5 gal   # old\nb: {c: '1 L' , d: \"2 L\"}\r\ne: one\n   two\n");
  desk.edit.set_scalar(*desk.root.find("e"), "3 L");
  desk.edit.set_scalar(*desk.root.find("a"), "19 L");
  desk.edit.set_scalar(*desk.root.find("b")->find("c"), "4 L");
  desk.edit.set_scalar(*desk.root.find("b")->find("d"), "5 L");
  EXPECT_EQ(desk.edit.result(), "a: 19 L   # old\nb: {c: '4 L' , d: \"5 L\"}\r\ne: 3 L\n");
}

TEST(TextEdit, RefusesToChangeOnePieceTwice) {
  Desk desk("a: 1\nb: 2\n");
  desk.edit.set_scalar(*desk.root.find("a"), "3");
  desk.edit.set_scalar(*desk.root.find("a"), "4");
  EXPECT_THROW((void)desk.edit.result(), std::logic_error);
}

TEST(TextEdit, AddsAndTakesOutMembersOfMaps) {
  Desk desk(
      "one: {a: 1, b: 2}  # one\n"
      "two: {a: 1,\n"
      "      b: 2   # two\n"
      "     }\n"
      "three: {a: 1, }\n"
      "four:\n"
      "  a: 1   # a\n"
      "  b: 2   # b\n"
      "         # goes on\n"
      "  # after\n"
      "five: {a: 1, b: 2, c: 3}\n"
      "six:\n"
      "  - a: 1\n"
      "    b: 2\n");
  for (const char* key : {"one", "two", "three", "four"}) {
    desk.edit.change_map(*desk.root.find(key), {}, {{"m", "7 kg"}, {"n", "8"}});
  }
  desk.edit.change_map(*desk.root.find("five"), {"a", "c"}, {{"m", "7"}});
  desk.edit.change_map(desk.root.find("six")->items[0], {"a"}, {{"m", "7"}});
  EXPECT_EQ(desk.edit.result(),
            "one: {a: 1, b: 2, m: 7 kg, n: 8}  # one\n"
            "two: {a: 1,\n"
            "      b: 2,   # two\n"
            "      m: 7 kg,\n"
            "      n: 8\n"
            "     }\n"
            "three: {a: 1, m: 7 kg, n: 8, }\n"
            "four:\n"
            "  a: 1   # a\n"
            "  b: 2   # b\n"
            "         # goes on\n"
            "  m: 7 kg\n"
            "  n: 8\n"
            "  # after\n"
            "five: {b: 2, m: 7}\n"
            "six:\n"
            "  - b: 2\n"
            "    m: 7\n");
}

TEST(TextEdit, TakesTheLastMemberOutWithItsLine) {
  Desk desk(
      "one: {a: 1,\n"
      "      b: 2}   # one\n"
      "two: {a: 1,   # a\n"
      "      b: 2}\n"
      "three: {a: 1, c: 3,\n"
      "        b: {d: 4}}\n"
      "four: {a: 1,\n"
      "       b: 2\n"
      "      }\n");
  for (const char* key : {"one", "two", "four"}) {
    desk.edit.change_map(*desk.root.find(key), {"b"}, {});
  }
  desk.edit.change_map(*desk.root.find("three"), {"b"}, {{"m", "7"}});
  EXPECT_EQ(desk.edit.result(),
            "one: {a: 1}   # one\n"
            "two: {a: 1   # a\n"
            "      }\n"
            "three: {a: 1, c: 3, m: 7}\n"
            "four: {a: 1\n"
            "      }\n");
}

TEST(TextEdit, WrapsAMapThatGrowsTooWide) {
  const std::string name(80, 'x');
  Desk desk("  - {n: " + name + ", a: 1}  # this\n");
  desk.edit.change_map(desk.root.items[0], {}, {{"long", "1234567"}, {"b", "2"}});
  EXPECT_EQ(desk.edit.result(), "  - {n: " + name + ", a: 1,\n     long: 1234567, b: 2}  # this\n");
}

TEST(TextEdit, TakesItemsOutOfABlockListWithTheirOwnComments) {
  const std::string text =
      "cans:\n"
      "  # about both\n"
      "  - {n: a}   # a\n"
      "             # and more of a\n"
      "  # about b\n"
      "  - n: b\n"
      "    m: 1   # b\n"
      "    # o: 2\n"
      "\n"
      "  # about c\n"
      "  -   {n: c,\n"
      "       m: 2}\n"
      "# after\n"
      "next: 1\n";
  EXPECT_EQ(without(text, {true, false, false}),
            "cans:\n  # about both\n  # about b\n  - n: b\n    m: 1   # b\n    # o: 2\n\n"
            "  # about c\n  -   {n: c,\n       m: 2}\n# after\nnext: 1\n");
  EXPECT_EQ(without(text, {false, true, true}),
            "cans:\n  # about both\n  - {n: a}   # a\n             # and more of a\n"
            "  # about b\n\n  # about c\n# after\nnext: 1\n");
  EXPECT_EQ(without("cans:\n- {n: a}\n- {n: b}", {false, true}), "cans:\n- {n: a}\n");
}

TEST(TextEdit, PutsItemsIntoABlockListInTheFormOfTheOneBefore) {
  const std::string text =
      "cans:\n"
      "  # about both\n"
      "  -   n: a\n"
      "      m: 1   # a\n"
      "      # o: 2\n"
      "  # about b\n"
      "  - {m: 2, n: b}   # b\n"
      "\n"
      "next: 1\n";
  const NewMember five{"m", "5"};
  const NewMember usual{"u", "1", true};
  EXPECT_EQ(with(text, {{-1, {{"n", "x"}, five}},
                        {0, {{"n", "y"}, five, usual}},
                        {1, {{"n", "z"}, usual, five, {"o", "6"}}},
                        {1, {{"n", "w"}}}}),
            "cans:\n"
            "  # about both\n"
            "  -   n: x\n"
            "      m: 5\n"
            "  -   n: a\n"
            "      m: 1   # a\n"
            "      # o: 2\n"
            "  -   n: y\n"
            "      m: 5\n"
            "  # about b\n"
            "  - {m: 2, n: b}   # b\n"
            "  - {m: 5, n: z, o: 6}\n"
            "  - {n: w}\n"
            "\n"
            "next: 1\n");
  EXPECT_EQ(with("cans:\r\n- {n: a}", {item(0, "b"), item(0, "c")}),
            "cans:\r\n- {n: a}\r\n- {n: b}\r\n- {n: c}");
  EXPECT_EQ(with("cans:\n- {n: a, u: 1}\n", {{0, {{"n", "b"}, {"u", "0", true}}}}),
            "cans:\n- {n: a, u: 1}\n- {n: b, u: 0}\n");
}

TEST(TextEdit, ChangesAListInBracketsOnOneLine) {
  const std::string text = "cans: [{n: a}, {n: b}, {n: c}]  # all\n";
  EXPECT_EQ(without(text, {true, false, false}), "cans: [{n: b}, {n: c}]  # all\n");
  EXPECT_EQ(without(text, {false, true, false}), "cans: [{n: a}, {n: c}]  # all\n");
  EXPECT_EQ(without(text, {false, false, true}), "cans: [{n: a}, {n: b}]  # all\n");
  EXPECT_EQ(without(text, {false, true, true}), "cans: [{n: a}]  # all\n");
  EXPECT_EQ(without("cans: [ {n: a}, {n: b}, ]\n", {false, true}), "cans: [ {n: a}, ]\n");
  EXPECT_EQ(with(text, {item(-1, "x"), item(0, "y"), item(2, "z"), item(2, "w")}),
            "cans: [{n: x}, {n: a}, {n: y}, {n: b}, {n: c}, {n: z}, {n: w}]  # all\n");
  EXPECT_EQ(with("cans: [{n: a}, ]\n", {item(0, "b")}), "cans: [{n: a}, {n: b}, ]\n");
  Desk desk(text);
  desk.edit.change_list(*desk.root.find("cans"), {true, false, true},
                        {item(-1, "x"), item(1, "y")});
  EXPECT_EQ(desk.edit.result(), "cans: [{n: x}, {n: b}, {n: y}]  # all\n");
  Desk other(text);
  other.edit.change_list(*other.root.find("cans"), {true, true, true}, {item(-1, "x")});
  EXPECT_EQ(other.edit.result(), "cans: [{n: x}]  # all\n");
}

TEST(TextEdit, ChangesAListInBracketsOnManyLines) {
  const std::string text =
      "cans: [\n"
      "    {n: a},   # a\n"
      "    # about b\n"
      "    {n: b},\n"
      "    {n: c}    # c\n"
      "  ]\n";
  EXPECT_EQ(without(text, {true, false, true}), "cans: [\n    # about b\n    {n: b}\n  ]\n");
  EXPECT_EQ(with(text, {item(-1, "x"), item(0, "y"), item(2, "z"), item(2, "w")}),
            "cans: [\n"
            "    {n: x},\n"
            "    {n: a},   # a\n"
            "    {n: y},\n"
            "    # about b\n"
            "    {n: b},\n"
            "    {n: c},    # c\n"
            "    {n: z},\n"
            "    {n: w}\n"
            "  ]\n");
  EXPECT_EQ(with("cans: [{n: a},\r\n       {n: b}]\r\n", {item(1, "c")}),
            "cans: [{n: a},\r\n       {n: b},\r\n       {n: c}]\r\n");
  EXPECT_EQ(without("cans: [{n: a},\n       {n: b}]\n", {false, true}), "cans: [{n: a}]\n");
}

TEST(TextEdit, BeginsAListWhereThereIsNone) {
  const auto begun = [](const std::string& text, const std::vector<std::string>& keys) {
    Desk desk(text);
    desk.edit.begin_list(desk.root, keys, {item(-1, "a"), item(-1, "b")}, {"x", "y"});
    return desk.edit.result();
  };
  const std::string lines = "  - {n: a}\n  - {n: b}\n";
  EXPECT_EQ(begun("y: 1  # y\n\nz: 2\n", {"cans"}), "y: 1  # y\n\ncans:\n" + lines + "\nz: 2\n");
  EXPECT_EQ(begun("v: 1\nz: 2", {"cans"}), "v: 1\nz: 2\ncans:\n  - {n: a}\n  - {n: b}");
  EXPECT_EQ(begun("cans:   # none\nz: 2\n", {"cans"}), "cans:   # none\n" + lines + "z: 2\n");
  EXPECT_EQ(begun("cans: []  # none\nz: 2\n", {"cans"}), "cans:  # none\n" + lines + "z: 2\n");
  EXPECT_EQ(begun("cans: ~\n", {"cans"}), "cans:\n" + lines);
  EXPECT_EQ(begun("cans: [ # none\n  ]\n", {"cans"}), "cans: [{n: a}, {n: b} # none\n  ]\n");
  EXPECT_EQ(begun("{z: 2}\n", {"cans"}), "{z: 2, cans: [{n: a}, {n: b}]}\n");
  EXPECT_EQ(begun("{cans: , z: 2}\n", {"cans"}), "{cans: [{n: a}, {n: b}] , z: 2}\n");
  EXPECT_EQ(begun("{cans: [], z: 2}\n", {"cans"}), "{cans: [{n: a}, {n: b}], z: 2}\n");
  const std::string deep = "    - {n: a}\n    - {n: b}\n";
  EXPECT_EQ(begun("z: 2\n", {"w", "cans"}), "z: 2\nw:\n  cans:\n" + deep);
  EXPECT_EQ(begun("w:\nz: 2\n", {"w", "cans"}), "w:\n  cans:\n" + deep + "z: 2\n");
  EXPECT_EQ(begun("w: {}\n", {"w", "cans"}), "w: {cans: [{n: a}, {n: b}]}\n");
  EXPECT_EQ(begun("w: {q: 1}\n", {"w", "cans"}), "w: {q: 1, cans: [{n: a}, {n: b}]}\n");
  EXPECT_EQ(begun("w:\n  q: 1  # q\n# z\nz: 2\n", {"w", "cans"}),
            "w:\n  q: 1  # q\n  cans:\n" + deep + "# z\nz: 2\n");
  EXPECT_EQ(begun("{w: , z: 2}\n", {"w", "cans"}), "{w: {cans: [{n: a}, {n: b}]} , z: 2}\n");
}

TEST(YamlText, IsInQuotesWhereItNeedsThem) {
  for (const char* plain : {"can 1", "Ça va", "20 L can", "Bob's can", "水", "a-b", "x"}) {
    EXPECT_EQ(yaml_text(plain), plain);
  }
  for (const std::string quoted :
       {"can: 1",     "#3",   "can #3", "yes",  "No",  "null", "~",   "12",      "1.5",
        "2027-03-01", "0x1F", "- a",    "a, b", "{a}", "[a",   "'a'", "\"a\" b", "back\\slash",
        "what?",      "&a",   "*a",     "!a",   "%a",  "@a",   "`a",  "|",       ">",
        "-",          ":",    "a:",     "?",    "=",   ""}) {
    const std::string made = yaml_text(quoted);
    EXPECT_EQ(made.front(), '"') << quoted;
    for (const std::string& text : {"k: " + made + "\n", "{k: " + made + ", m: 1}\n"}) {
      Log log;
      const auto tree = parse_tree(text, {}, log);
      ASSERT_TRUE(tree) << text;
      EXPECT_EQ(tree->find("k")->text, quoted);
      EXPECT_EQ(tree->find("k")->kind, Node::Kind::text);
    }
  }
}

}  // namespace
}  // namespace drystage::plan
