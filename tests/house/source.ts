import { parseSync, visitorKeys } from 'oxc-parser'

/** A node of the syntax tree, as far as the house rules look into it. */
export type Node = { type: string; start: number; [key: string]: unknown }

export type Source = {
  /** What it imports, statically or not; null where a dynamic import's name is computed. */
  imports: { name: string | null; line: number }[]
  /** Calls back for each node, with its parent; names of properties and keys are not visited. */
  visit(see: (node: Node, parent: Node | null) => void): void
  /** Names that the file declares itself: they are not the globals of that name. */
  declared: ReadonlySet<string>
  lineOf(node: { start: number }): number
}

export function readSource(path: string, text: string): Source {
  const { program, module, errors } = parseSync(path, text)
  if (errors.length > 0) throw new Error(`${path} cannot be parsed: ${errors[0]?.message}`)
  const tree = program as unknown as Node
  const lineOf = ({ start }: { start: number }) => text.slice(0, start).split('\n').length
  const visit: Source['visit'] = (see) => walk(tree, null, see)
  const fromStatements = [...module.staticImports, ...module.staticExports.flatMap((found) => found.entries)]
  const imports: Source['imports'] = fromStatements.flatMap(({ moduleRequest, start }) =>
    moduleRequest ? [{ name: moduleRequest.value, line: lineOf({ start }) }] : [],
  )
  const declared = new Set<string>()
  visit((node) => {
    const name = requested(node)
    if (name !== undefined) imports.push({ name, line: lineOf(node) })
    for (const binding of bindings(node)) collectNames(binding, declared)
  })
  return { imports, visit, declared, lineOf }
}

/** The dotted name of `a.b.c` without a leading globalThis; undefined for anything that is not just names. */
export function dottedName(node: Node): string | undefined {
  if (node.type === 'Identifier') return node.name as string
  if (node.type === 'ParenthesizedExpression' || node.type === 'TSNonNullExpression') {
    return dottedName(node.expression as Node)
  }
  if (node.type !== 'MemberExpression') return undefined
  const before = dottedName(node.object as Node)
  const property = node.property as Node
  const after = node.computed ? (property.type === 'Literal' ? property.value : undefined) : property.name
  if (before === undefined || typeof after !== 'string') return undefined
  return ['globalThis', 'window', 'self', 'global'].includes(before) ? after : `${before}.${after}`
}

/** What `import()`, `require()` and the type `import('x')` ask for. */
function requested(node: Node): string | null | undefined {
  const literal = (value: unknown) => {
    const { type, value: name } = (value ?? {}) as Node
    return type === 'Literal' && typeof name === 'string' ? name : null
  }
  if (node.type === 'ImportExpression' || node.type === 'TSImportType') return literal(node.source)
  if (node.type === 'CallExpression' && dottedName(node.callee as Node) === 'require') {
    return literal((node.arguments as Node[])[0])
  }
  return undefined
}

function bindings(node: Node): unknown[] {
  if (node.type === 'VariableDeclarator') return [node.id]
  if (node.type.startsWith('Import') && 'local' in node) return [node.local]
  if (/Function/.test(node.type)) return [node.id, ...((node.params as unknown[]) ?? [])]
  return []
}

function collectNames(value: unknown, names: Set<string>): void {
  if (Array.isArray(value)) for (const item of value) collectNames(item, names)
  if (value === null || typeof value !== 'object' || !('type' in value)) return
  const node = value as Node
  if (node.type === 'Identifier') names.add(node.name as string)
  for (const key of ['elements', 'properties', 'value', 'left', 'argument']) collectNames(node[key], names)
}

function walk(node: Node, parent: Node | null, see: (node: Node, parent: Node | null) => void): void {
  see(node, parent)
  for (const key of visitorKeys[node.type] ?? []) {
    const isName = (key === 'property' || key === 'key') && node.computed !== true
    if (isName && !node.shorthand) continue
    for (const child of [node[key]].flat()) {
      if (child && typeof child === 'object' && 'type' in child) walk(child as Node, node, see)
    }
  }
}
