-- lashwork from LuaJIT, through its C library: no compiler, nothing to install but the library.
--
-- The header is read as it is installed. LASHWORK_LIBRARY and LASHWORK_HEADER name the two files; without
-- them the library is found where the system looks, and the header in /usr/local/include or /usr/include.

local ffi = require("ffi")

-- The declarations of a C header: what a preprocessor of a plain C11 compiler would leave, without its own
-- includes and macros.
local function declarations(path)
  local file = assert(io.open(path, "r"), "no header: set LASHWORK_HEADER")
  local text = file:read("*a")
  file:close()
  text = text:gsub("/%*.-%*/", ""):gsub("//[^\n]*", "")
  text = text:gsub("LW_MUST_USE", "")
  local out, open = {}, {}
  for line in text:gmatch("[^\n]*") do
    local word, rest = line:match("^%s*#%s*(%a+)%s*(.*)$")
    if word == "if" or word == "ifdef" or word == "ifndef" then
      table.insert(open, word == "ifndef")
    elseif word == "else" then
      open[#open] = not open[#open]
    elseif word == "endif" then
      table.remove(open)
    elseif word == nil then
      local taken = true
      for _, value in ipairs(open) do
        taken = taken and value
      end
      if taken then
        table.insert(out, line)
      end
    end
  end
  return table.concat(out, "\n")
end

local function first_file(paths)
  for _, path in ipairs(paths) do
    local file = io.open(path, "r")
    if file then
      file:close()
      return path
    end
  end
end

local header = os.getenv("LASHWORK_HEADER")
  or first_file({ "/usr/local/include/lashwork.h", "/usr/include/lashwork.h" })
ffi.cdef(declarations(header or "lashwork.h"))
local C = ffi.load(os.getenv("LASHWORK_LIBRARY") or "lashwork")
assert(C.lw_abi_version() == 1, "the library has another binary interface than this module")

local lw = { C = C, ffi = ffi, version = ffi.string(C.lw_version()) }

-- A zeroed structure that states its size, with fields set.
function lw.new(name, fields)
  local made = ffi.new(name)
  made.struct_size = ffi.sizeof(name)
  for key, value in pairs(fields or {}) do
    made[key] = value
  end
  return made
end

-- Makes a call; nil and a table with status, code, message, hint and place if it is refused.
function lw.try(name, ...)
  local place = ffi.new("lw_error *[1]")
  local arguments = { ... }
  local count = select("#", ...)
  arguments[count + 1] = place
  local status = C["lw_" .. name](unpack(arguments, 1, count + 1))
  if status == 0 then
    return true
  end
  local refused = { status = tonumber(status) }
  for _, key in ipairs({ "code", "message", "hint", "place" }) do
    refused[key] = ffi.string(C["lw_error_" .. key](place[0]))
  end
  C.lw_error_free(place[0])
  return nil, refused
end

-- Makes a call; an error with the kernel's message if it is refused.
function lw.call(name, ...)
  local done, refused = lw.try(name, ...)
  if not done then
    error(refused.code .. ": " .. refused.message, 2)
  end
end

-- Text that a call makes.
function lw.text(name, ...)
  local text = ffi.new("lw_text[1]")
  local arguments = { ... }
  table.insert(arguments, text)
  local done, refused = lw.try(name, unpack(arguments))
  if not done then
    return nil, refused
  end
  local found = ffi.string(text[0].data, text[0].len)
  C.lw_text_free(text)
  return found
end

-- The answer to a document, as JSON.
function lw.run(document)
  return lw.text("run", document, #document)
end

-- The job sheet of one page; nil and why, if the document is refused.
function lw.job_sheet(document)
  return lw.text("job_sheet", document, #document)
end

-- The page and everything behind it; nil and why, if the document is refused.
function lw.full_sheet(document)
  return lw.text("full_sheet", document, #document)
end

-- An engine of a document, freed by the collector.
function lw.engine_of_document(document)
  local place = ffi.new("lw_engine *[1]")
  lw.call("engine_of_document", document, #document, place)
  return ffi.gc(place[0], C.lw_engine_free)
end

-- An engine of parts; nil and why if they do not agree.
function lw.engine(parts)
  local place = ffi.new("lw_engine *[1]")
  local done, refused = lw.try("engine_new", parts, place)
  if not done then
    return nil, refused
  end
  return ffi.gc(place[0], C.lw_engine_free)
end

-- A stop plan, freed by the collector; nil if the engine has none of that method.
function lw.plan(engine, train, method, places, start)
  local place = ffi.new("lw_plan *[1]")
  local done, refused = lw.try("plan_new", engine, train, method, places or 0, start or 0, place)
  if not done then
    return nil, refused
  end
  if place[0] == nil then
    return nil
  end
  return ffi.gc(place[0], C.lw_plan_free)
end

-- What a cylinder is called.
function lw.label(engine, cylinder)
  local needed = ffi.new("size_t[1]")
  lw.try("engine_label", engine, cylinder, nil, 0, needed)
  local buffer = ffi.new("char[?]", needed[0])
  lw.call("engine_label", engine, cylinder, buffer, needed[0], needed)
  return ffi.string(buffer)
end

return lw
