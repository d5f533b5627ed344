/** Every way into the house, as the sources of `app` say it: pages, route handlers and server actions, with their guards. */
import { readdirSync, readFileSync } from 'node:fs'
import ts from 'typescript'

/** What a door asks of its visitor: a right of the table, or nothing, with the reason why. */
export type Guard = { readonly right: string } | { readonly open: string }

export interface Door {
  /** `page` for a page, the method for a route handler, the function's name for an act */
  readonly name: string
  readonly kind: 'page' | 'route' | 'act'
  readonly file: string
  /** where a page or route handler is found, `/recipes/[recipeId]`; an act has none of its own */
  readonly address: string
  /** null where the first statement asks nothing, or not in so many words */
  readonly guard: Guard | null
  /** of an act: its arguments, as they are declared */
  readonly takes: readonly Argument[]
  /** of an act: the arguments that its guard looks at */
  readonly looksAt: readonly string[]
}

export interface Argument {
  readonly name: string
  readonly type: string
}

const METHODS = ['GET', 'POST', 'PUT', 'PATCH', 'DELETE', 'HEAD', 'OPTIONS']

/** next-auth's own handler: who may is what it decides. */
const OWN_GUARD = 'app/api/auth/[...nextauth]/route.ts'

/** Every page, route handler and act below `app`, sorted by file and name. */
export function doorsOfApp(): Door[] {
  const files = readdirSync('app', { recursive: true, encoding: 'utf8' }).map(
    (file) => `app/${file.replace(/\\/g, '/')}`,
  )
  return files
    .filter((file) => /\.tsx?$/.test(file) && file !== OWN_GUARD)
    .toSorted()
    .flatMap((file) =>
      doorsIn(file, ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true)),
    )
}

/** The doors of one file: none in a file that is no page, no route handler and holds no act. */
export function doorsIn(file: string, tree: ts.SourceFile): Door[] {
  if (isAct(tree.statements[0])) return exported(tree).map((one) => door('act', file, one.name, one.value))
  if (/\/page\.tsx$/.test(file)) {
    const page = exported(tree).filter(({ isDefault }) => isDefault)
    return [...page.map(({ value }) => door('page', file, 'page', value)), ...actsInside(file, tree)]
  }
  if (/\/route\.tsx?$/.test(file))
    return exported(tree)
      .filter(({ name }) => METHODS.includes(name))
      .map(({ name, value }) => door('route', file, name, value))
  return actsInside(file, tree)
}

function door(kind: Door['kind'], file: string, name: string, value: ts.Node | undefined): Door {
  const made = functionIn(value)
  const asked = callIn(firstStatement(made?.body))
  return {
    name,
    kind,
    file,
    address: kind === 'act' ? '' : addressOf(file),
    guard: asked ? guardOf(asked) : null,
    takes: made ? made.parameters.map((one) => ({ name: one.name.getText(), type: one.type?.getText() ?? '' })) : [],
    looksAt: asked ? asked.arguments.slice(1).map((one) => one.getText()) : [],
  }
}

function addressOf(file: string): string {
  const inside = file.replace(/^app/, '').replace(/\/[^/]*$/, '')
  return inside.replace(/\/\([^/]*\)/g, '') || '/'
}

function guardOf(call: ts.CallExpression): Guard | null {
  const [said] = call.arguments
  if (!said || !ts.isStringLiteral(said)) return null
  return call.expression.getText() === 'openDoor' ? { open: said.text } : { right: said.text }
}

/** The guard that is called in this statement, whatever is done with its answer. */
function callIn(statement: ts.Node | undefined): ts.CallExpression | null {
  let found: ts.CallExpression | null = null
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionLike(node)) return
    if (ts.isCallExpression(node) && /^(requireMember|memberOr|openDoor)$/.test(node.expression.getText())) found = node
    ts.forEachChild(node, visit)
  }
  if (statement) visit(statement)
  return found
}

function firstStatement(body: ts.Node | undefined): ts.Node | undefined {
  if (!body || !ts.isBlock(body)) return body
  return body.statements.find((one) => !isAct(one))
}

const isAct = (statement: ts.Node | undefined) => /^['"]use server['"]/.test(statement?.getText() ?? '')

interface Exported {
  readonly name: string
  readonly isDefault: boolean
  readonly value: ts.Node | undefined
}

function exported(tree: ts.SourceFile): Exported[] {
  return tree.statements.flatMap((statement): Exported[] => {
    if (ts.isExportDeclaration(statement) && statement.exportClause && ts.isNamedExports(statement.exportClause))
      return statement.exportClause.elements.map((one) => ({
        name: one.name.text,
        isDefault: one.name.text === 'default',
        value: declared(tree, (one.propertyName ?? one.name).text),
      }))
    if (ts.isExportAssignment(statement))
      return [
        {
          name: 'default',
          isDefault: true,
          value: declared(tree, statement.expression.getText()) ?? statement.expression,
        },
      ]
    if (!ts.canHaveModifiers(statement)) return []
    const words = ts.getModifiers(statement)?.map((one) => one.kind) ?? []
    if (!words.includes(ts.SyntaxKind.ExportKeyword)) return []
    const isDefault = words.includes(ts.SyntaxKind.DefaultKeyword)
    if (ts.isFunctionDeclaration(statement))
      return [{ name: statement.name?.text ?? 'default', isDefault, value: statement }]
    if (!ts.isVariableStatement(statement)) return []
    return statement.declarationList.declarations.map((one) => ({
      name: one.name.getText(),
      isDefault: false,
      value: one.initializer,
    }))
  })
}

/** What stands at the top of this file under this name. */
function declared(tree: ts.SourceFile, name: string): ts.Node | undefined {
  for (const statement of tree.statements) {
    if (ts.isFunctionDeclaration(statement) && statement.name?.text === name) return statement
    if (!ts.isVariableStatement(statement)) continue
    const found = statement.declarationList.declarations.find((one) => one.name.getText() === name)
    if (found) return found.initializer
  }
  return undefined
}

type Made = ts.FunctionDeclaration | ts.ArrowFunction | ts.FunctionExpression

/** The function itself, also inside a wrapper: `guardFaults(async () => { … })`. */
function functionIn(value: ts.Node | undefined): Made | undefined {
  if (!value) return undefined
  if (ts.isFunctionDeclaration(value) || ts.isArrowFunction(value) || ts.isFunctionExpression(value)) return value
  return ts.isCallExpression(value) ? functionIn(value.arguments.find((one) => ts.isFunctionLike(one))) : undefined
}

/** Acts that stand inside another function. */
function actsInside(file: string, tree: ts.SourceFile): Door[] {
  const found: Door[] = []
  const visit = (node: ts.Node): void => {
    if (ts.isBlock(node) && isAct(node.statements[0])) found.push(door('act', file, '(act inside)', node.parent))
    ts.forEachChild(node, visit)
  }
  visit(tree)
  return found
}
