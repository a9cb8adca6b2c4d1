-- The rig language server for Neovim, 0.7 and later.
--   require("riglang").setup()                                    rig is on the PATH
--   require("riglang").setup({ cmd = { "/opt/rig/rig", "server" },
--                              settings = { ["rig-lang"] = { units = "ft" } } })
local M = {}

local options = {
  cmd = { "rig", "server" },
  settings = { ["rig-lang"] = {} },
  on_attach = function() end,
}

local status = {} -- what the server said last, file by file

local function file_of(uri)
  return vim.uri_to_fname(uri)
end

local function root_of(file)
  local folder = vim.fn.fnamemodify(file, ":p:h")
  local repository = vim.fn.finddir(".git", folder .. ";")
  return repository ~= "" and vim.fn.fnamemodify(repository, ":p:h:h") or folder
end

local function client_config()
  return {
    name = "rig",
    cmd = options.cmd,
    init_options = { status = true },
    settings = options.settings,
    get_language_id = function() return "rig" end,
    handlers = {
      ["rig/status"] = function(_, params) status[file_of(params.uri)] = params end,
    },
    on_attach = options.on_attach,
  }
end

-- Neovim 0.7: one client for each root, started for the first file in it.
local started = {}

local function start_for(buffer)
  local root = root_of(vim.api.nvim_buf_get_name(buffer))
  local id = started[root]
  if not id or not vim.lsp.get_client_by_id(id) then
    if vim.fn.executable(options.cmd[1]) == 0 then
      vim.notify_once(options.cmd[1] .. " was not found: install it, or name it in require(\"riglang\").setup({ cmd = ... })", vim.log.levels.WARN)
      return
    end
    local config = client_config()
    config.root_dir = root
    config.workspace_folders = { { uri = vim.uri_from_fname(root), name = vim.fn.fnamemodify(root, ":t") } }
    id = vim.lsp.start_client(config)
    started[root] = id
  end
  if id then
    vim.lsp.buf_attach_client(buffer, id)
  end
end

local function client_of(buffer)
  local clients = vim.lsp.get_clients and vim.lsp.get_clients({ bufnr = buffer }) or vim.lsp.buf_get_clients(buffer)
  for _, client in pairs(clients) do
    if client.name == "rig" then
      return client
    end
  end
end

-- The answer in a window of its own, which cannot be edited by mistake.
local function show(title, text)
  local buffer = vim.api.nvim_create_buf(false, true)
  vim.api.nvim_buf_set_lines(buffer, 0, -1, false, vim.split(text, "\n"))
  vim.api.nvim_buf_set_option(buffer, "modifiable", false)
  vim.api.nvim_buf_set_option(buffer, "bufhidden", "wipe")
  vim.cmd("belowright split")
  vim.api.nvim_win_set_buf(0, buffer)
  vim.api.nvim_buf_set_name(buffer, title .. " #" .. buffer)
  vim.api.nvim_buf_set_keymap(buffer, "n", "q", "<Cmd>close<CR>", { noremap = true })
end

local function ask(title, command, arguments)
  local buffer = vim.api.nvim_get_current_buf()
  local client = client_of(buffer)
  if not client then
    vim.notify("The rig server does not look after this file.", vim.log.levels.WARN)
    return
  end
  table.insert(arguments, 1, vim.uri_from_bufnr(buffer))
  local params = { command = command, arguments = arguments }
  local answered = function(err, text)
    if err then
      vim.notify(err.message, vim.log.levels.ERROR)
    else
      show(title, text or "")
    end
  end
  if vim.fn.has("nvim-0.11") == 1 then
    client:request("workspace/executeCommand", params, answered, buffer)
  else
    client.request("workspace/executeCommand", params, answered, buffer)
  end
end

--- "notes from seq.a", "what reaches bass" or "why not clock from drums to bass".
function M.trace(question)
  ask("rig trace: " .. question, "rig.trace", { question })
end

function M.channels()
  ask("rig channels", "rig.channels", {})
end

function M.audio()
  ask("rig audio", "rig.audio", {})
end

function M.power()
  ask("rig power", "rig.power", {})
end

function M.ground()
  ask("rig ground", "rig.ground", {})
end

local sounds = { "hum", "buzz", "whine" }

--- Which ground loop to suspect: "hum" is low and even, "buzz" harsher and an octave up, "whine" high and changing. Without one, it asks.
function M.hum(sound)
  if sound and sound ~= "" then
    ask("rig hum: " .. sound, "rig.hum", { sound })
    return
  end
  vim.ui.select(sounds, { prompt = "What is heard?" }, function(chosen)
    if chosen then
      M.hum(chosen)
    end
  end)
end

--- For a status line: "rig: 92 facts", or "rig: fails, 2 errors"; empty where there is nothing to say.
function M.status(buffer)
  local now = status[vim.api.nvim_buf_get_name(buffer or 0)]
  if not now then
    return ""
  end
  local parts = { now.passes and ("rig: " .. now.facts .. (now.facts == 1 and " fact" or " facts")) or "rig: fails" }
  for _, noun in ipairs({ "error", "warning", "hint" }) do
    local count = now[noun .. "s"]
    if count > 0 then
      table.insert(parts, count .. " " .. noun .. (count == 1 and "" or "s"))
    end
  end
  return table.concat(parts, ", ")
end

function M.setup(given)
  options = vim.tbl_deep_extend("force", options, given or {})
  vim.cmd([[command! -nargs=+ RigTrace lua require("riglang").trace(<q-args>)]])
  vim.cmd([[command! RigChannels lua require("riglang").channels()]])
  vim.cmd([[command! RigAudio lua require("riglang").audio()]])
  vim.cmd([[command! RigPower lua require("riglang").power()]])
  vim.cmd([[command! RigGround lua require("riglang").ground()]])
  vim.api.nvim_create_user_command("RigHum", function(command) M.hum(command.args) end, {
    nargs = "?",
    force = true,
    complete = function(typed)
      return vim.tbl_filter(function(sound) return vim.startswith(sound, typed) end, sounds)
    end,
  })
  if vim.fn.has("nvim-0.11") == 1 then
    local config = client_config()
    config.filetypes = { "rig" }
    config.root_dir = function(buffer, found) found(root_of(vim.api.nvim_buf_get_name(buffer))) end
    vim.lsp.config("rig", config)
    vim.lsp.enable("rig")
  else
    M._start_for = start_for
    vim.cmd([[
      augroup riglang
        autocmd!
        autocmd FileType rig lua require("riglang")._start_for(tonumber(vim.fn.expand("<abuf>")))
      augroup end
    ]])
  end
end

return M
