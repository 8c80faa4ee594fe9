-- Another editor's client: opens a sheet, has the server started, and writes down what it is told, as JSON, before and after an edit.
local sheet, report = vim.env.SHEET, vim.env.REPORT
local patience = 30000

vim.cmd('edit ' .. vim.fn.fnameescape(sheet))
vim.bo.filetype = 'quarrel'

local client = vim.lsp.start_client({
  name = 'quarrel',
  cmd = vim.fn.json_decode(vim.env.SERVER),
  root_dir = vim.fn.fnamemodify(sheet, ':h'),
})
vim.lsp.buf_attach_client(0, client)

local function told()
  local lines = {}
  for _, one in ipairs(vim.diagnostic.get(0)) do
    table.insert(lines, {
      code = one.code or one.user_data.lsp.code,
      severity = one.severity,
      place = { one.lnum, one.col, one.end_lnum, one.end_col },
      message = one.message,
    })
  end
  return lines
end

local function has_syntax_fault()
  for _, one in ipairs(told()) do
    if one.code == 'syntax' then return true end
  end
  return false
end

local result = {}
vim.wait(patience, function() return #vim.diagnostic.get(0) > 0 end)
result.opened = told()

vim.fn.search('do draw-vacuum')
vim.cmd('normal! w')
local hover = vim.lsp.buf_request_sync(0, 'textDocument/hover', vim.lsp.util.make_position_params(), patience)
for _, answer in pairs(hover or {}) do result.hover = vim.fn.json_encode(answer.result) end

vim.fn.append(0, 'prozedure "Trüb 🪟" {')
vim.wait(patience, has_syntax_fault)
result.broken = told()

vim.fn.deletebufline('%', 1)
vim.wait(patience, function() return not has_syntax_fault() end)
result.mended = told()

vim.fn.writefile({ vim.fn.json_encode(result) }, report)
vim.lsp.stop_client(client)
vim.cmd('qall!')
