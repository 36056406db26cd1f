# WASM with Emscripten; what was built runs in node, where it sees the files of the machine.
execute_process(
  COMMAND em-config EMSCRIPTEN_ROOT
  OUTPUT_VARIABLE emscripten_root
  OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
include(${emscripten_root}/cmake/Modules/Platform/Emscripten.cmake)

set(CMAKE_CXX_FLAGS_INIT "-fexceptions -include ${CMAKE_CURRENT_LIST_DIR}/range_algorithms.hpp")
string(JOIN " " CMAKE_EXE_LINKER_FLAGS_INIT -sNODERAWFS -sALLOW_MEMORY_GROWTH -sEXIT_RUNTIME -sSTACK_OVERFLOW_CHECK=1
       -sWASM_ASYNC_COMPILATION=0) # node 18 and newer would try to fetch the program from the network
