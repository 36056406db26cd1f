#!/usr/bin/env bash
# Builds a program in C and one in C++ on what is installed, by nothing but pkg-config, and runs them; the schemas of what
# they say in JSON must be there, too. Arguments: the prefix, a folder for the programs, the FEN of the record position and a
# file of games.
set -euo pipefail
prefix=$1 folder=$2 fen=$3 games=$4
sources=$(dirname "$0")
found=$(find "$prefix" -name keysquare.pc)
version=$(sed -n 's/.* version = "\(.*\)".*/\1/p' "$prefix/include/keysquare/version.hpp")
export PKG_CONFIG_PATH=${found%/*}
mkdir -p "$folder"
read -ra flags <<<"$(pkg-config --cflags keysquare)"
read -ra libraries <<<"$(pkg-config --libs --static keysquare)"

"${CC:-cc}" -std=c99 -Wall -Wextra -Wpedantic -Werror -DVERSION="\"$version\"" "${flags[@]}" \
    "$sources/c_interface/main.c" -o "$folder/in_c" "${libraries[@]}"
"${CXX:-c++}" -std=c++20 "${flags[@]}" "$sources/find_package/main.cpp" -o "$folder/in_cpp" "${libraries[@]}"

[ "$(pkg-config --modversion keysquare)" = "$version" ]
for schema in "$sources"/../../bindings/schema/*.schema.json; do
    cmp "$schema" "$prefix/share/keysquare/schema/${schema##*/}"
done
says_218() {
    local said
    said=$("$@")
    echo "$said"
    [ "$said" = "218 legal moves" ]
}
says_218 "$folder/in_cpp" "$fen"
if command -v valgrind; then
    says_218 valgrind --quiet --error-exitcode=9 --leak-check=full --show-leak-kinds=all --errors-for-leak-kinds=all \
        "$folder/in_c" "$fen" "$games"
else
    echo "no valgrind: not looked for leaks"
    says_218 "$folder/in_c" "$fen" "$games"
fi
