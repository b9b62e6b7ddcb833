# An independent check of every digest of a logbook, written from docs/formats.md alone and run by
# hand: python3 tests/reference/scripts/digests.py FILE. It reads the file and writes nothing.
import sqlite3,sys,struct,hashlib
db=sqlite3.connect(f'file:{sys.argv[1]}?mode=ro',uri=True); db.text_factory=bytes
tables=[r[0].decode() for r in db.execute("select name from sqlite_schema where type='table'")]
def info(t):
    ids={f[3].decode() for f in db.execute(f'pragma foreign_key_list({t})') if f[2]==b'entry'}|({'id'} if t=='entry' else set())
    out=[]
    for cid,name,typ,nn,df,pk in db.execute(f'pragma table_info({t})'):
        silent=('none',)
        if df is not None: silent=('v',db.execute('select '+df.decode()).fetchone()[0])
        elif not nn: silent=('v',None)
        if not (t=='act' and name==b'digest'): out.append((name.decode(),silent,pk,name.decode() in ids,{b'TEXT':3,b'BLOB':4}.get(typ,1)))
    return out
I={t:info(t) for t in tables}
hands=dict(db.execute('select number,laptop from hand'))
# a copy of a laptop's disk went on apart: after which act, and of which hand
branches={r[0]:r[1:] for r in db.execute('select first,after,origin from hand_branch')}
origin={n:n for n in hands}
for f,(after,o) in branches.items(): origin[f&2047]=o
def identity(key):
    mark=bytearray(hashlib.blake2b(hands[origin[key&2047]],digest_size=32).digest()[:8]); mark[0]=mark[0]&0x3f|0x80
    ms=(key>>21)+1577836800000; count=(key>>11)&1023
    return ms.to_bytes(6,'big')+bytes([0x80|count>>8,count&255])+bytes(mark)
kinds=dict((n,k.decode()) for n,k in db.execute('select number,name from entry_kind'))
rec=[t for t in tables if any(c[0]=='entry' for c in I[t])]
kind={}
for t in rec:
    s=db.execute("select sql from sqlite_schema where name=?",(t+'_kind',)).fetchone()[0].decode()
    kind[t]=int(s.split(" IS NOT ")[1].split()[0])
def row(t,r,left=None):
    b=b'r'+bytes([len(t)])+t.encode()
    for i,((n,silent,pk,isid,ty),v) in enumerate(zip(I[t],r)):
        if n==left: continue
        if silent[0]=='v' and silent[1]==v and type(silent[1])==type(v): continue
        b+=bytes([i+1])
        if v is None: b+=b'\0'
        elif isid: b+=bytes([4])+struct.pack('<I',16)+identity(v)
        elif isinstance(v,int): b+=b'\x01'+struct.pack('<q',v)
        else: b+=bytes([ty])+struct.pack('<I',len(v))+v
    return b+b'\0'
def select(t,order): return db.execute('select '+','.join('"'+c[0]+'"' for c in I[t])+f' from {t} order by {order}')
rows={}
for t in rec:
    key=','.join(c[0] for c in sorted((c for c in I[t] if c[2]),key=lambda c:c[2]))
    d=rows[t]={}
    for r in select(t,key): d.setdefault(r[0],[]).append(r)
bykind={}
for t in sorted(rec,key=lambda t:(kind[t],t!=kinds[kind[t]],t)): bykind.setdefault(kind[t],[]).append(t)
E={c[0]:i for i,c in enumerate(I['entry'])}; A={c[0]:i for i,c in enumerate(I['act'])}
entries={r[E['id']]:r for r in select('entry','id')}
book=db.execute('select id from book').fetchone()[0]
kept=dict(db.execute('select first,digest from act'))
# whose content an entry is: the child of its row, of its field, of what it takes back
salt=dict(db.execute('select child,salt from child_salt'))
gone={r[0]:r[1:] for r in db.execute('select id,child,content from erased_entry')}
col={t:{c[0]:i for i,c in enumerate(I[t])} for t in rec}
def owner(id):
    if id in gone: return gone[id][0]
    e=entries[id]; k=kinds[e[E['kind']]]
    if k=='child': return e[E['subject']] or id
    if k=='retraction': return owner(e[E['supersedes']])
    r=rows[k][id][0]
    if 'child' in col[k]: return r[col[k]['child']]
    if 'field' in col[k]: return owner(r[col[k]['field']])
    return None
def text(v): return b'\0' if v is None else b'\x03'+struct.pack('<I',len(v))+v
prev={};n=0;bad=0;seen=0
for a in select('act','first'):
    first=a[A['first']]; hand=first&2047
    tag=b'groovekeeper act 2'
    if first in branches and branches[first][0]: prev[hand]=kept[branches[first][0]]
    b=struct.pack('<I',len(tag))+tag+book+hands[origin[hand]]+prev.get(hand,bytes(32))+row('act',a)
    for nth in range(a[A['count']]):
        e=entries[first+nth*2048]; seen+=1
        id=e[E['id']]; who=owner(id)
        records=b''.join(row(t,r) for t in bykind.get(e[E['kind']],[]) for r in rows[t].get(id,[]))
        if who is None: b+=row('entry',e)+records; continue
        s=salt.get(who,b'')
        content=gone[id][1] if id in gone else hashlib.blake2b(b'groovekeeper content 1'+struct.pack('<I',len(s))+s+text(e[E['reason']])+records,digest_size=32).digest()
        b+=row('entry',e,'reason')+b'c'+identity(who)+content
    b+=b'e'+struct.pack('<q',a[A['count']])
    n+=1
    if kept[first]!=hashlib.blake2b(b,digest_size=32).digest(): bad+=1
    prev[hand]=kept[first]
print(n,'acts',bad,'differ',len(entries)-seen,'entries of no act')
