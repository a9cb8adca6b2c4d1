-- Neovim with the configuration that ships in editors/neovim, against a real server.
--   RIG       the rig program
--   EXAMPLES  a copy of examples/, which the test changes
--   EDITORS   the folder editors/
-- Prints "ok - ..." and "not ok - ..." lines; exit code 1 when one is not ok.
local rig, examples, editors = os.getenv("RIG"), os.getenv("EXAMPLES"), os.getenv("EDITORS")
local mistakes, sound = examples .. "/mistakes/pantile-yard.rig", examples .. "/pantile-yard.rig"
local patience = 20000
local failed = false

local function report(holds, what, seen)
  failed = failed or not holds
  io.stdout:write((holds and "ok - nvim: " or "not ok - nvim: ") .. what .. "\n")
  if not holds then
    io.stdout:write("  seen: " .. vim.inspect(seen):sub(1, 2000):gsub("\n", "\n  ") .. "\n")
  end
end

local function eventually(holds)
  return vim.wait(patience, holds, 20)
end

-- A test gives whether it holds, and what was seen.
local function test(what, run)
  local ran, holds, seen = pcall(run)
  if ran then
    report(holds and true or false, what, seen)
  else
    report(false, what, holds)
  end
end

local function lines()
  return vim.api.nvim_buf_get_lines(0, 0, -1, false)
end

local function text()
  return table.concat(lines(), "\n")
end

-- Puts the cursor on what the pattern's first capture, or the whole of it, stands at.
local function go_to(pattern)
  for number, line in ipairs(lines()) do
    local start = line:find(pattern)
    if start then
      vim.api.nvim_win_set_cursor(0, { number, start - 1 })
      return number - 1
    end
  end
  error("no line has " .. pattern)
end

-- "line check-name" of every finding, sorted.
local function findings()
  local list = {}
  for _, d in ipairs(vim.diagnostic.get(0)) do
    table.insert(list, string.format("%d %s", d.lnum + 1, d.user_data and d.user_data.lsp.code or d.code or "?"))
  end
  table.sort(list)
  return list
end

local function finds(check)
  for _, finding in ipairs(findings()) do
    if finding:match("%S+$") == check then
      return true
    end
  end
  return false
end

-- The comments of the file say which line has which mistake.
local function expected()
  local list = {}
  for number, line in ipairs(lines()) do
    local check = line:match("// mistake: (%S+)")
    if check then
      table.insert(list, number .. " " .. check)
    end
  end
  table.sort(list)
  return list
end

local function request(method, extra)
  local params = vim.lsp.util.make_position_params(0, "utf-16")
  for key, value in pairs(extra or {}) do
    params[key] = value
  end
  local answers = assert(vim.lsp.buf_request_sync(0, method, params, patience), method .. " was not answered")
  for _, answer in pairs(answers) do
    assert(not answer.error, vim.inspect(answer.error))
    return answer.result
  end
end

local function open(file)
  vim.cmd("edit! " .. vim.fn.fnameescape(file))
end

vim.cmd("set noswapfile hidden shortmess+=I")
vim.opt.runtimepath:prepend(editors .. "/vim")
vim.opt.runtimepath:prepend(editors .. "/neovim")
vim.cmd("filetype plugin on | syntax on")
require("riglang").setup({ cmd = { rig, "server" } })

open(mistakes)
test("*.rig is of type rig, with hyphens in words", function()
  return vim.bo.filetype == "rig" and vim.bo.iskeyword:match("%-") ~= nil, { vim.bo.filetype, vim.bo.iskeyword }
end)
test("the file with mistakes shows every one at its line, and nothing else", function()
  local want = expected()
  assert(#want > 40, "the example has no mistakes any more")
  return eventually(function() return vim.deep_equal(findings(), want) end), { want = want, seen = findings() }
end)
test("the status says in a word that the rig fails", function()
  eventually(function() return require("riglang").status() ~= "" end)
  local status = require("riglang").status()
  return status:match("^rig: fails, %d+ errors, %d+ warnings") ~= nil, status
end)
test("a fix swaps the ends of a connection, and its finding goes", function()
  local line = go_to("^connect desk%.line4")
  local diagnostics = vim.lsp.diagnostic.get_line_diagnostics(0, line)
  local actions = request("textDocument/codeAction", {
    range = { start = { line = line, character = 0 }, ["end"] = { line = line, character = 0 } },
    context = { diagnostics = diagnostics, only = { "quickfix" } },
  })
  local action = assert(actions and actions[1], "no fix is offered")
  vim.lsp.util.apply_workspace_edit(action.edit, "utf-16")
  local after = lines()[line + 1]
  return after:match("^connect drums%.kick%s+to desk%.line4") and eventually(function() return not finds("ends-swapped") end), { after, findings() }
end)

open(sound)
test("the sound rig has no finding, and the status counts the facts", function()
  local ready = eventually(function() return require("riglang").status() ~= "" end)
  local status = require("riglang").status()
  return ready and #findings() == 0 and status:match("^rig: %d%d+ facts$"), { findings(), status }
end)
test("hovering a connection speaks of it", function()
  go_to("^connect seq%.midi")
  local hover = request("textDocument/hover")
  local shown = hover and table.concat(vim.lsp.util.convert_input_to_markdown_lines(hover.contents), "\n") or ""
  return shown:match("seq%.midi") and shown:match("[Mm][Ii][Dd][Ii]"), shown
end)
test("after connect, the devices are offered", function()
  vim.api.nvim_buf_set_lines(0, -1, -1, false, { "connect " })
  vim.api.nvim_win_set_cursor(0, { #lines(), #"connect " })
  local params = { textDocument = vim.lsp.util.make_text_document_params(), position = { line = #lines() - 1, character = 8 } }
  local completion = request("textDocument/completion", params)
  local labels = vim.tbl_map(function(item) return item.label end, completion.items or completion)
  local offered = table.concat(labels, " ")
  return (" " .. offered):match("%sseq") and (" " .. offered):match("%sdrums"), labels
end)
test("a mistake while typing shows, and goes when it is undone", function()
  vim.api.nvim_buf_set_lines(0, -2, -1, false, { "connect seq.midi to nobody.midi" })
  local shown = eventually(function() return finds("unknown-name") end)
  vim.api.nvim_buf_set_lines(0, -2, -1, false, {})
  return shown and eventually(function() return #findings() == 0 end), findings()
end)
test("renaming a device renames it everywhere", function()
  go_to("seq : Brindock")
  local _, before = text():gsub("%f[%w-]seq%f[^%w-]", "")
  local edit = request("textDocument/rename", { newName = "sequencer" })
  vim.lsp.util.apply_workspace_edit(edit, "utf-16")
  local _, left = text():gsub("\nconnect seq%.", "")
  local _, after = text():gsub("%f[%w-]sequencer%f[^%w-]", "")
  return before > 5 and left == 0 and after >= before - 3 and eventually(function() return #findings() == 0 end), { before, left, after, findings() }
end)
test("formatting puts crooked lines into columns, and back", function()
  open(sound)
  vim.wait(200)
  local straight = text()
  local number = go_to("^connect seq%.midi")
  vim.api.nvim_buf_set_lines(0, number, number + 1, false, { (lines()[number + 1]:gsub("%s+", " "):gsub(" to ", "   to ")) })
  assert(text() ~= straight, "the line was not crooked")
  if vim.lsp.buf.format then
    vim.lsp.buf.format({ timeout_ms = patience })
  else
    vim.lsp.buf.formatting_sync(nil, patience)
  end
  return text() == straight, lines()[number + 1]
end)
test(":RigTrace answers in a window that cannot be edited", function()
  open(sound)
  local window = vim.api.nvim_get_current_win()
  vim.cmd("RigTrace clock from seq")
  local shown = eventually(function() return vim.api.nvim_get_current_win() ~= window end)
  local answer, fixed = text(), not vim.bo.modifiable
  vim.cmd("close")
  return shown and fixed and answer:match("seq") and answer:match("bass"), answer
end)
-- What a command shows in a window of its own.
local function page(command)
  local window = vim.api.nvim_get_current_win()
  vim.cmd(command)
  assert(eventually(function() return vim.api.nvim_get_current_win() ~= window end), command .. " showed nothing")
  local answer = text()
  vim.cmd("close")
  return answer
end
test(":RigChannels answers", function()
  local answer = page("RigChannels")
  return answer:match("drums"), answer
end)
test(":RigAudio answers", function()
  local answer = page("RigAudio")
  return answer:match("What arrives where"), answer
end)
test(":RigPower answers", function()
  local answer = page("RigPower")
  return answer:match("Power of") and answer:match("Never remove or lift a protective earth"), answer
end)
test(":RigGround answers", function()
  local answer = page("RigGround")
  return answer:match("ground domains?") and answer:match("loops?"), answer
end)
test(":RigHum answers, by the sound that is given or chosen", function()
  local given = page("RigHum whine")
  local select, offered = vim.ui.select, nil
  vim.ui.select = function(sounds, _, choose)
    offered = sounds
    choose("whine")
  end
  local chosen = page("RigHum")
  vim.ui.select = select
  return given == chosen and given:match("protective earth") and vim.deep_equal(offered, { "hum", "buzz", "whine" }), { given, chosen, offered }
end)
test("behind :RigHum, the sounds are offered", function()
  local offered = vim.fn.getcompletion("RigHum w", "cmdline")
  return vim.deep_equal(offered, { "whine" }), offered
end)
test("a question that cannot be read, and a sound that there is not, are told", function()
  local told
  local notify = vim.notify
  vim.notify = function(message) told = message end
  local window = vim.api.nvim_get_current_win()
  vim.cmd("RigHum hiss")
  eventually(function() return told end)
  local refusal = told or "nothing"
  told = nil
  vim.cmd("RigTrace clock from nobody")
  eventually(function() return told or vim.api.nvim_get_current_win() ~= window end)
  vim.notify = notify
  return refusal:match('"hiss".*hum, buzz, whine') and (told or text()):match("nobody"), { refusal, told or text() }
end)

local function group(line, word)
  vim.cmd("enew! | setfiletype rig")
  vim.api.nvim_buf_set_lines(0, 0, -1, false, vim.split(line, "\n"))
  vim.cmd("syntax sync fromstart")
  local place = vim.fn.searchpos("\\V" .. word, "cw")
  vim.fn.synID(place[1], 1, 1) -- from the left, or what it knew of the last buffer is taken for this one
  local name = vim.fn.synIDattr(vim.fn.synID(place[1], place[2], 1), "name")
  vim.cmd("bwipeout!")
  return name
end
test("a device may be called like a keyword", function()
  local seen = { group("device must : Plover", "must"), group("connect to.x to b.y", "to.x"), group("connect a.in to b.out", "in") }
  return vim.deep_equal(seen, { "rigDeclared", "rigOwner", "rigPort" }), seen
end)
test("units, colours, signals and messages are coloured where they mean something", function()
  local seen = {
    group("  tempo 112 bpm", "bpm"), group("connect a.b to c.d with Patch 1 m red", "red"), group("  in midi : midi on din-5", "midi on"),
    group("must clock from a reach b", "clock"), group("  clock midi", "midi"), group("  in p : dc 9 V on barrel 5.5x2.1 mm", "x2"),
  }
  return vim.deep_equal(seen, { "rigUnit", "rigColour", "rigSignal", "rigMessage", "rigName", "rigNumber" }), seen
end)

-- The version here knows nothing of vim.lsp.config; this holds what a later one is given, not that it works there.
test("from 0.11 on, the server is configured and enabled the new way", function()
  local has, given, enabled = vim.fn.has, nil, nil
  vim.fn.has = function(feature) return feature == "nvim-0.11" and 1 or has(feature) end
  vim.lsp.config = function(name, config) given = { name, config } end
  vim.lsp.enable = function(name) enabled = name end
  require("riglang").setup({ cmd = { rig, "server" } })
  vim.fn.has, vim.lsp.config, vim.lsp.enable = has, nil, nil
  local root
  given[2].root_dir(vim.fn.bufadd(sound), function(folder) root = folder end)
  return given[1] == "rig" and enabled == "rig" and vim.deep_equal(given[2].cmd, { rig, "server" })
    and vim.deep_equal(given[2].filetypes, { "rig" }) and given[2].init_options.status and vim.fn.isdirectory(root) == 1, { given, root }
end)

vim.lsp.stop_client(vim.lsp.get_active_clients())
vim.wait(3000, function() return #vim.lsp.get_active_clients() == 0 end, 20)
vim.cmd(failed and "cquit 1" or "qall!")
