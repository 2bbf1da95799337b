// Files written whole or not at all, and read with a limit.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace halfhard {

// Written under a name that nobody can guess, never through a link, and renamed to `path`; the permissions of what stood
// there are kept. A link at `path` itself is replaced, not followed. Throws Trouble, which names the file and why.
void write_whole(const std::filesystem::path& path, std::string_view bytes);

// The same for a plain name in a folder that is held open.
void write_whole_in(int folder, const std::string& name, std::string_view bytes, const std::string& shown_path);

// Opens 0 to 2 where they are closed, so that no file of ours takes their place; first of all in every main.
void secure_standard_streams();

}  // namespace halfhard
