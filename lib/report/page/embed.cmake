# Makes C++ of page.css and page.js: each as a string, with its SHA-256.
# Usage: cmake -DFOLDER=lib/report/page -DOUTPUT=FILE -P embed.cmake
set(cpp "")
foreach(ending css js)
  file(READ "${FOLDER}/page.${ending}" text)
  file(SHA256 "${FOLDER}/page.${ending}" hash)
  string(APPEND cpp
    "constexpr std::string_view ${ending} = R\"source(${text})source\";\n"
    "constexpr std::string_view ${ending}_sha256 = \"${hash}\";\n")
endforeach()
file(WRITE "${OUTPUT}" "${cpp}")
