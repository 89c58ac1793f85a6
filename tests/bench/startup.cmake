# The start of the window with an empty notebook and with a large one, each as a process of its own; README.md says how to run it.
add_executable(washfast_bench_startup startup_driver.cpp startup_child.cpp startup_notebook.cpp startup.h)
target_link_libraries(washfast_bench_startup PRIVATE washfast_window washfast_cli)
