# Debian's clang for WebAssembly: preset "wasm". The system's own headers never reach it: the header-only libraries are
# linked into a folder of their own.
set(CMAKE_SYSTEM_NAME WASI)
list(APPEND CMAKE_MODULE_PATH ${CMAKE_CURRENT_LIST_DIR}/platform)
set(CMAKE_CXX_COMPILER clang++-19)
set(CMAKE_CXX_COMPILER_TARGET wasm32-wasi)
set(CMAKE_AR llvm-ar-19)
set(CMAKE_RANLIB llvm-ranlib-19)
set(CMAKE_TRY_COMPILE_TARGET_TYPE STATIC_LIBRARY)

set(headers ${CMAKE_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${headers})
foreach(header fmt nlohmann eigen3/Eigen)
  get_filename_component(name ${header} NAME)
  file(CREATE_LINK /usr/include/${header} ${headers}/${name} SYMBOLIC)
endforeach()
set(CMAKE_CXX_STANDARD_INCLUDE_DIRECTORIES /usr/include/wasm32-wasi/c++/v1 /usr/include/wasm32-wasi ${headers})
set(CMAKE_CXX_FLAGS_INIT "-nostdlibinc -fno-exceptions")
set(CMAKE_EXE_LINKER_FLAGS_INIT "-mexec-model=reactor -Wl,--strip-all,--stack-first,-z,stack-size=4194304")
